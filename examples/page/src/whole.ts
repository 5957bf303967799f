// What answers a whole job: the other WebAssembly file, and its parts for the sections that a job has. Only parts
// of the page that are loaded later may import this.

import { bring, init, missing, run } from "lashwork";
import { checkAnew } from "./check";
import { asked, type Answer, type Document, type Problem, type Report } from "./kernel";

let begun: Promise<void> | undefined;

/** Settles when whole jobs can be answered, and the one valve whatever is said of it. */
export const wholeReady = (): Promise<void> => (begun ??= init(undefined, ["clearance"]).then(checkAnew));

/** The sections of a document and those it is asked with: what was done is laid on the condition. */
const sectionsOf = (document: object): object =>
  "log" in document ? { ...document, condition: {} } : document;

/** Brings what answers a document, or a text that may be one. */
export const bringFor = (document: object | string): Promise<void> =>
  bring(typeof document === "string" ? document : (sectionsOf(document) as Document));

/** Whether what answers a document is still to be brought. */
export const lacksFor = (document: object): boolean => missing(sectionsOf(document) as Document).length > 0;

const answers = new WeakMap<object, Answer<Report>>();

/** The answer to a document; documents are never changed in place, so it is kept. */
export function answer(document: Document): Answer<Report> {
  const known = answers.get(document);
  if (known) return known;
  const fresh = ask(document);
  answers.set(document, fresh);
  return fresh;
}

/** The answer to a document, or to text that may be none. What is about clearances is answered so. */
export const ask = (document: Document | string): Answer<Report> => asked(() => run(document) as Report);

/** A document may be right and yet none for this page. */
const NO_CLEARANCE: Problem = {
  place: "",
  code: "page.no-clearance",
  message: "the document says nothing of clearances",
  hint: 'this page is for clearance jobs: add the part "clearance"',
};

/** Why a text cannot be shown in the form. */
export function whyNot(text: string): readonly Problem[] {
  const { report, problems } = ask(text);
  return report ? [NO_CLEARANCE] : problems;
}
