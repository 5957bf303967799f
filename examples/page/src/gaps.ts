// Gaps and temperatures in the units that are shown; the kernel writes them.

import { lashText, temperatureText, type Lash } from "./kernel";

/** The unit in which gaps are shown. */
export type Shown = "mm" | "in";

const DECIMALS = { mm: 3, in: 4 } as const;

/** One gap. */
export const one = (lash: Lash, shown: Shown): string => lashText(lash.mm, shown, DECIMALS[shown]);

/** The unit in which warmth is shown. */
export type Warm = "C" | "F";

/** A temperature, to a tenth where it needs one: `20 °C`, `68.5 °F`. */
export const warm = (celsius: number, unit: Warm): string =>
  temperatureText(celsius, unit, 1).replace(/(?:\.0)? (?=[CF]$)/, " °");

/** A gap with one or two ends. */
export function gap(low: Lash | null | undefined, high: Lash | null | undefined, shown: Shown): string {
  if (low && high) {
    const [from, to] = [one(low, shown), one(high, shown)];
    return from === to ? from : `${from.replace(/ \S+$/, "")} to ${to}`;
  }
  if (low) return `at least ${one(low, shown)}`;
  return high ? `less than ${one(high, shown)}` : "not known";
}
