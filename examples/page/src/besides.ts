// What the kernel may say besides its verdict: shown where it is there, missed nowhere.

import type { ClearanceReport, JudgedReport } from "./kernel";

/** A joint finding that comes before any valve is set. */
export interface Finding {
  code: string;
  text: string;
}

/** A text, or the text of what has one. */
function textOf(said: unknown): string {
  if (typeof said === "string") return said;
  const text = typeof said === "object" && said !== null && "text" in said ? said.text : undefined;
  return typeof text === "string" ? text : "";
}

const listOf = (said: unknown): unknown[] => (Array.isArray(said) ? said : said == null ? [] : [said]);

/** What has to be settled before anything is set: said as such, or what all readings together say is worth a check. */
export function stopWork(report: ClearanceReport): Finding[] {
  const said = (report as { stop_work?: unknown }).stop_work;
  if (said !== undefined)
    return listOf(said).map((one) => ({
      code: String((one as { code?: unknown } | null)?.code ?? textOf(one)),
      text: textOf(one),
    }));
  const { diagnosis, crank_check: crank } = report;
  const found: Finding[] = [];
  if (crank && !["nothing_felt", "open"].includes(crank.verdict) && !settledAsAssumed(crank))
    found.push({ code: `crank.${crank.verdict}`, text: crank.text });
  if (diagnosis?.status === "worth_checking") {
    const [first] = diagnosis.hypotheses;
    found.push({ code: `together.${first?.cause ?? ""}`, text: diagnosis.text });
  }
  return found;
}

function settledAsAssumed({ verdict, explanations }: NonNullable<ClearanceReport["crank_check"]>): boolean {
  return verdict === "settled" && explanations[0]?.hypotheses[0]?.cause === "as_believed";
}

/** The steps of an advice that come before any amount, in their order. */
export const firstSteps = ({ advice }: JudgedReport): string[] =>
  listOf((advice as { first?: unknown }).first)
    .map(textOf)
    .filter(Boolean);

/** Causes to look for before a valve is set. */
export const causesOf = ({ advice }: JudgedReport): string[] =>
  listOf((advice as { causes?: unknown }).causes)
    .map(textOf)
    .filter(Boolean);

/** The leaf to try next as the set marks it, by the first book that names one. */
export const nextLeaf = (judged: readonly Pick<JudgedReport, "next_leaf">[]): string =>
  judged.find(({ next_leaf }) => next_leaf)?.next_leaf?.leaf.text ?? "";
