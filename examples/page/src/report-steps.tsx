// What the report of a job says of its ignition: brought with the second step, where there is one.

import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { AnyReport, Document } from "./kernel";

type Paper = typeof import("./ignition/paper");

interface IgnitionPart {
  report: AnyReport;
  /** What comes before everything else. */
  stop: ComponentChildren;
  /** The rest. */
  shown: ComponentChildren;
}

/** What to show of the ignition; nothing where the document says none, or until it is there. */
export function useIgnition(document: Document): IgnitionPart | undefined {
  const [paper, setPaper] = useState<Paper>();
  const isAsked = document.ignition != null;
  useEffect(() => {
    if (isAsked) void import("./ignition/paper").then(setPaper);
  }, [isAsked]);
  return isAsked ? paper?.paperOf(document) : undefined;
}

/** Both lists without what stands in both. */
export function together<T extends string | { text: string }>(
  first: readonly T[],
  more: readonly T[] = [],
): T[] {
  const textOf = (one: T) => (typeof one === "string" ? one : one.text);
  const said = new Set(first.map(textOf));
  return [...first, ...more.filter((one) => !said.has(textOf(one)))];
}
