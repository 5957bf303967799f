// Numbers and verdicts of the kernel in plain words. They are written as they come; nothing is reckoned here.

import type { IgnitionCheckReport } from "lashwork/ignition";
import { fixed } from "../ignition/told";
import { chance, VERDICTS } from "../words";

type Judged = NonNullable<NonNullable<IgnitionCheckReport["dwell"]>["judged"]>;

/** A point at the crank or the distributor, with the side it is on. */
export const point = ({ deg_btdc: deg }: { deg_btdc: number }): string =>
  `${Number(fixed(Math.abs(deg), 2))} deg ${deg < 0 ? "ATDC" : "BTDC"}`;

/** What is added to a value for its doubt. */
export const doubt = (u: string): string => `standard uncertainty ${u}`;

interface VerdictProps {
  of: string;
  judged: Judged | null;
  /** What it is on either side of the limits. */
  below: string;
  above: string;
}

export function Verdict({ of: what, judged, ...sides }: VerdictProps) {
  if (!judged) return null;
  const { verdict, probabilities, provable } = judged;
  const { sign, word } = VERDICTS[verdict];
  return (
    <>
      <p class="verdict">
        <span class={`sign ${verdict}`}>
          <span aria-hidden="true">{sign}</span>{" "}
          {verdict === "below" || verdict === "above" ? sides[verdict] : word}
        </span>
        <span class="against">{what}</span>
      </p>
      <p class="facts-line">
        In limits {chance(probabilities.in_band)}; {sides.below.toLowerCase()} {chance(probabilities.below)};{" "}
        {sides.above.toLowerCase()} {chance(probabilities.above)}.
        {!provable && " A reading as uncertain as this one could never be called in limits."}
      </p>
    </>
  );
}
