// The only door to what is computed. Everything on the page that is a number comes through here.

import { init, LashworkError, run, type Document, type Judged, type Problem, type Report } from "lashwork";

export { lashText, shares } from "lashwork";
export type * from "lashwork";

/** A gap in millimetres. */
export type Lash = NonNullable<Judged["low"]>;

/** A report, or why there is none. */
export type Answer =
  | { report: Report; problems: readonly Problem[] }
  | { report: null; problems: readonly Problem[] };

/** Settles when answers can be had. */
export const ready: Promise<void> = init();

const answers = new WeakMap<object, Answer>();

/** The answer to a document; documents are never changed in place, so it is kept. */
export function answer(document: Document): Answer {
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
