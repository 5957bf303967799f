// What comes before a verdict's amount: joint findings, first steps, causes; and the leaf to try next.

import type { JudgedReport } from "./kernel";

const textsOf = (list: readonly { text: string }[] | undefined): string[] =>
  (list ?? []).map(({ text }) => text);

/** The steps of an advice that come before any amount, in their order. */
export const firstSteps = ({ advice }: JudgedReport): string[] =>
  "first" in advice ? textsOf(advice.first) : [];

/** Causes to look for before a valve is set. */
export const causesOf = ({ advice }: JudgedReport): string[] =>
  "causes" in advice ? textsOf(advice.causes) : [];

/** The leaf to try next as the set marks it, by the first book that names one. */
export const nextLeaf = (judged: readonly Pick<JudgedReport, "next_leaf">[]): string =>
  judged.find(({ next_leaf }) => next_leaf)?.next_leaf?.leaf.text ?? "";
