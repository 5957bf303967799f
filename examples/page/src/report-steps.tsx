// What the report of a job says of its later steps: brought with each, where there is one.

import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { AnyReport, Document } from "./kernel";

interface StepShown {
  report: Pick<AnyReport, "cautions" | "assumptions">;
  /** What comes before everything else. */
  stop: ComponentChildren;
  /** The rest. */
  shown: ComponentChildren;
}

type PaperOf = (document: Document) => StepShown | undefined;

const PAPERS = {
  service: async (): Promise<PaperOf> => (await import("./service/paper")).paperOf,
  condition: async (): Promise<PaperOf> => (await import("./condition/paper")).paperOf,
  ignition: async (): Promise<PaperOf> => (await import("./ignition/paper")).paperOf,
  mixture: async (): Promise<PaperOf> => (await import("./mixture/paper")).paperOf,
  history: async (): Promise<PaperOf> => (await import("./history/paper")).paperOf,
};

const PARTS = ["condition", "ignition", "mixture", "history"] as const;

/** What to show of each; nothing where the document says none, or until it is there. */
export function useSteps(document: Document): StepShown[] {
  const [papers, setPapers] = useState<{ [part in keyof typeof PAPERS]?: PaperOf }>({});
  const own = PARTS.filter((part) => document[part] != null);
  // The order of all steps where there is more than one.
  const asked = own.length > 0 ? (["service", ...own] as const) : own;
  useEffect(() => {
    for (const part of asked)
      void PAPERS[part]().then((paper) => setPapers((papers) => ({ ...papers, [part]: paper })));
  }, [asked.join()]);
  return asked.flatMap((part) => papers[part]?.(document) ?? []);
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
