// What judges one valve, writes gaps and draws them: the small WebAssembly file, which is there first.
// Every number on the page comes through here or, for whole jobs, through `whole.ts`.

import {
  init,
  LashworkError,
  type ClearanceDoc,
  type ClearanceReport,
  type Document as AnyDocument,
  type JudgedReport,
  type Problem,
  type Report as AnyReport,
} from "lashwork/quick";

export { lashText, quickCheck, shares, temperatureText } from "lashwork/quick";
export type * from "lashwork/quick";

export type { AnyReport };

/** A document of this page: one about clearances. */
export interface Document extends AnyDocument {
  clearance: ClearanceDoc;
}

/** The report of such a document. */
export interface Report extends AnyReport {
  clearance: ClearanceReport;
}

/** A gap in millimetres. */
export type Lash = NonNullable<JudgedReport["low"]>;

/** An answer, or why there is none. */
export type Answer<T> =
  | { report: T; problems: readonly Problem[] }
  | { report: null; problems: readonly Problem[] };

let isReady = false;

/** Settles when one valve can be judged. */
export const ready: Promise<void> = init().then(() => {
  isReady = true;
});

/** Whether one valve can be judged. */
export const isThere = (): boolean => isReady;

/** What a call answers, or the problems it throws. */
export function asked<T>(call: () => T): Answer<T> {
  try {
    return { report: call(), problems: [] };
  } catch (why) {
    if (why instanceof LashworkError) return { report: null, problems: why.problems };
    throw why;
  }
}
