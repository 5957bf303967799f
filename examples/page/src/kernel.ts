// The only door to what is computed. Everything on the page that is a number comes through here.

import { init, LashworkError, run, type Document, type Judged, type Problem, type Report } from "lashwork";

export { lashText, shares, temperatureText } from "lashwork";
export type * from "lashwork";

/** A gap in millimetres. */
export type Lash = NonNullable<Judged["low"]>;

/** A report, or why there is none. */
export type Answer =
  | { report: Report; problems: readonly Problem[] }
  | { report: null; problems: readonly Problem[] };

let isReady = false;

/** Settles when answers can be had. */
export const ready: Promise<void> = init().then(() => {
  isReady = true;
});

/** The answer while the kernel is still on its way. */
const WAITING: Answer = { report: null, problems: [] };

const answers = new WeakMap<object, Answer>();

/** The answer to a document; documents are never changed in place, so it is kept. */
export function answer(document: Document): Answer {
  if (!isReady) return WAITING;
  const known = answers.get(document);
  if (known) return known;
  const fresh = ask(document);
  answers.set(document, fresh);
  return fresh;
}

/** The answer to a document, or to text that may be none. */
export function ask(document: Document | string): Answer {
  try {
    return { report: run(document), problems: [] };
  } catch (why) {
    if (why instanceof LashworkError) return { report: null, problems: why.problems };
    throw why;
  }
}
