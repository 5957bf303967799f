// What the report of a job says of its later steps, where there is one.

import type { ComponentChildren } from "preact";
import { paperOf as causes } from "./causes/paper";
import { paperOf as condition } from "./condition/paper";
import { paperOf as history } from "./history/paper";
import { paperOf as ignition } from "./ignition/paper";
import type { AnyReport, Document } from "./kernel";
import { paperOf as mixture } from "./mixture/paper";
import { paperOf as service } from "./service/paper";

interface StepShown {
  report: Pick<AnyReport, "cautions" | "assumptions">;
  /** What comes before everything else. */
  stop: ComponentChildren;
  /** The rest. */
  shown: ComponentChildren;
}

type PaperOf = (document: Document) => StepShown | undefined;

const PAPERS = { condition, ignition, mixture, history, causes };

/** What to show of each; nothing where the document says none. The order of all comes first if there is any. */
export function stepsOf(document: Document): StepShown[] {
  const own: PaperOf[] = Object.entries(PAPERS).flatMap(([part, paper]) =>
    document[part as keyof typeof PAPERS] != null ? [paper] : [],
  );
  return (own.length > 0 ? [service, ...own] : own).flatMap((paper) => paper(document) ?? []);
}

/** How a record of them is printed: more than one, besides their order, has no room for drawings. */
export const wholeOf = (steps: readonly StepShown[]): string => (steps.length > 2 ? "whole" : "");

/** Lists together, without what stands in one before. */
export function together<T extends string | { text: string }>(...lists: readonly (readonly T[])[]): T[] {
  const said = new Set<string>();
  return lists.flat().filter((one) => {
    const text = typeof one === "string" ? one : one.text;
    return !said.has(text) && said.add(text);
  });
}
