// Gaps in the unit that is shown; the kernel writes them.

import { lashText, type Lash } from "./kernel";

/** The unit in which gaps are shown. */
export type Shown = "mm" | "in";

const DECIMALS = { mm: 3, in: 4 } as const;

/** One gap. */
export const one = (lash: Lash, shown: Shown): string => lashText(lash.mm, shown, DECIMALS[shown]);

/** A gap with one or two ends. */
export function gap(low: Lash | null | undefined, high: Lash | null | undefined, shown: Shown): string {
  if (low && high) {
    const [from, to] = [one(low, shown), one(high, shown)];
    return from === to ? from : `${from.replace(/ \S+$/, "")} to ${to}`;
  }
  if (low) return `at least ${one(low, shown)}`;
  return high ? `less than ${one(high, shown)}` : "not known";
}
