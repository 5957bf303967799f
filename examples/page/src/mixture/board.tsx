// Drawings of the balance board: a plank for each throttle, and the head of a screw with the turn it needs.

import type { BalanceReport } from "../kernel";

const WIDTH = 320;
const MIDDLE = WIDTH / 2;
const DEEP = 30;

/** How a bar is filled: as its verdict is, or plainly where there is none. */
const FILL = {
  below: "var(--loose)",
  above: "var(--loose)",
  in_band: "var(--in-band)",
  cannot_say: "var(--cannot)",
  none: "var(--deep)",
} as const;

interface PlankProps {
  found: BalanceReport;
  throttle: BalanceReport["throttles"][number];
}

/** How far a throttle reads beside the reference, which stands in the middle: to the left under, to the right over.
 * The same stands beside it in words. */
export function Plank({ found, throttle }: PlankProps) {
  const { over_reference: over, over_reference_u: u, is_reference, judged } = throttle;
  const allowed = found.allowed ?? 0;
  const ends = found.throttles.map((one) => Math.abs(one.over_reference ?? 0) + (one.over_reference_u ?? 0));
  const farthest = Math.max(1.2 * allowed, ...ends) || 1;
  const x = (value: number) => MIDDLE + (value / farthest) * (MIDDLE - 8);
  const words = (x: number, anchor: "start" | "end", text: string) => (
    <text x={x} y={DEEP + 14} text-anchor={anchor}>
      {text}
    </text>
  );
  return (
    <svg class="picture plank" viewBox={`0 0 ${WIDTH} ${is_reference ? DEEP + 18 : DEEP}`} aria-hidden="true">
      <path class="zone band" d={`M${x(-allowed)} 0H${x(allowed)}V${DEEP}H${x(-allowed)}z`} />
      <path class="edge" d={`M${MIDDLE} 0V${DEEP}`} />
      {over != null && !is_reference && (
        <path
          class="bar"
          fill={FILL[judged?.verdict ?? "none"]}
          d={`M${MIDDLE} 8H${x(over)}V${DEEP - 8}H${MIDDLE}z`}
        />
      )}
      {over != null && u != null && !is_reference && (
        <path class="edge doubt" fill="none" d={`M${x(over - u)} 10v10m0-5H${x(over + u)}m0-5v10`} />
      )}
      {is_reference && (
        <>
          <path class="aim" d={`M${MIDDLE} 4l11 11l-11 11l-11-11z`} />
          {words(0, "start", "◀ under it")}
          {words(WIDTH, "end", "over it ▶")}
        </>
      )}
    </svg>
  );
}

type TurnProps = { turn: BalanceReport["turns"][number] };

/** The head of a screw as one looks at it: an arrow for the way, as long as the turn where that is known. */
export function ScrewHead({ turn: { clockwise, degrees } }: TurnProps) {
  if (clockwise == null) return null;
  const way = clockwise ? 1 : -1;
  // More than a turn is said in words; an arrow goes round once at most.
  const sweep = Math.min(degrees == null ? 60 : Math.max(Math.abs(degrees), 12), 340);
  const at = (deg: number, radius: number) => {
    const angle = (way * deg * Math.PI) / 180;
    return `${(36 + radius * Math.sin(angle)).toFixed(1)} ${(36 - radius * Math.cos(angle)).toFixed(1)}`;
  };
  return (
    <svg class="screw" width="64" viewBox="0 0 72 72" aria-hidden="true" fill="none" stroke-width="4">
      <circle cx="36" cy="36" r="18" stroke="var(--ink)" />
      <path stroke="var(--ink)" d="M36 21v30" />
      <path
        class="way"
        stroke="var(--glow)"
        stroke-dasharray={degrees == null ? "4 4" : undefined}
        d={`M${at(0, 28)}A28 28 0 ${sweep > 180 ? 1 : 0} ${clockwise ? 1 : 0} ${at(sweep, 28)}`}
      />
      <path class="aim" d={`M${at(sweep + 16, 28)}L${at(sweep - 4, 21)}L${at(sweep - 4, 35)}z`} />
    </svg>
  );
}
