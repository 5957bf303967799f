// A program about ignition alone, as a user writes it; it is compiled, not run.
import { LashworkError, ignitionCheck, init, version } from "lashwork/ignition";
import type { IgnitionCheck, IgnitionCheckReport, Problem } from "lashwork/ignition";

const check: IgnitionCheck = {
  dwell: { lobes: 4, reading: { shows: "56 deg", uncertainty: "1 deg" }, pair: { gap: "0.40 mm", dwell: "49 deg" } },
  point: { at: "7.5 deg BTDC", rim: { diameter: "155 mm", by_tape: true } },
};

export async function use(): Promise<string> {
  await init();
  const found: IgnitionCheckReport = ignitionCheck(check);
  const verdict: "in_band" | "below" | "above" | "cannot_say" | undefined = found.dwell?.judged?.verdict;
  const gap: number | undefined = found.dwell?.gap?.value.mm;
  return `${verdict} ${gap} ${found.point?.at.deg_btdc} ${version()}`;
}

export const told = (why: unknown): readonly Problem[] => (why instanceof LashworkError ? why.problems : []);

// @ts-expect-error a bare number has no unit
export const bare: IgnitionCheck = { dwell: { lobes: 4, reading: { shows: 56, uncertainty: "1 deg" } } };
// @ts-expect-error there is no such question
ignitionCheck({ dwel: {} });
