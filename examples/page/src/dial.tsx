// The crank as a dial: one lap of the spiral for each turn of the cycle, the stops along it, the way to the next.

import type { PlanReport, Report } from "./kernel";
import { degrees, ENDS } from "./words";

const MIDDLE = 172;
const OUTER = 150;
const INNER = 90;

/** Where the degrees of a turn are written, inside the spiral. */
const DEGREES = 74;

interface Props {
  report: Report;
  plan: PlanReport;
  /** Which stop the crank is at; none on a chart. */
  stop?: number;
  /** Stops at which all is read. */
  done: readonly boolean[];
  /** Beside words that say the same: no names in it. */
  small?: boolean;
}

/** Places on the spiral of one engine. */
function spiral(report: Report) {
  const cycle = report.engine.cycle === "two_stroke" ? 360 : 720;
  const way = report.engine.rotation.sense === "clockwise" ? 1 : -1;
  const round = (position: number, radius: number): [number, number] => {
    const angle = (way * position * Math.PI) / 180;
    return [MIDDLE + radius * Math.sin(angle), MIDDLE - radius * Math.cos(angle)];
  };
  const place: Place = (position, out = 0) =>
    round(position, OUTER - (OUTER - INNER) * (position / cycle) + out);
  const path = (from: number, turn: number) => {
    let drawn = "";
    let before = Infinity; // So that the first point starts the path.
    for (let on = 0; on <= turn; on += Math.min(4, turn - on || 4)) {
      const position = (from + on) % cycle;
      const [x, y] = place(position);
      drawn += `${position < before ? "M" : "L"}${x.toFixed(1)} ${y.toFixed(1)}`;
      before = position;
    }
    return drawn;
  };
  return { cycle, way, round, place, path };
}

/** The dial with the same in words. */
export function Dial({ report, plan, stop, done, small }: Props) {
  const { cycle, way, round, place, path } = spiral(report);
  const here = stop === undefined ? undefined : plan.stops[stop];
  const next = stop === undefined ? undefined : plan.stops[stop + 1];
  const first = report.engine.firing_order[0] ?? "";
  const words = here
    ? `Crank at stop ${stop! + 1} of ${plan.stops.length}${next ? `, next turn ${degrees(next.turn.deg)}` : ", the last one"}`
    : `${plan.stops.length} stops at ${plan.stops.map((s) => degrees(s.position.deg)).join(", ")}`;
  return (
    <figure class={small ? "dial small-dial" : "dial"}>
      <svg viewBox={`0 0 ${2 * MIDDLE} ${2 * MIDDLE}`} role="img" aria-label={words}>
        <path class="track" d={path(0, cycle - 0.01)} />
        {[0, 90, 180, 270].map((at) => {
          const [[x1, y1], [x2, y2]] = [place(at, 8), place(at, 16)];
          const [x, y] = round(at, DEGREES);
          return (
            <g key={at} class="mark">
              <path d={`M${x1} ${y1}L${x2} ${y2}`} />
              {at > 0 && !small && (
                <text x={x} y={y + 4} text-anchor="middle">
                  {at}°
                </text>
              )}
            </g>
          );
        })}
        {here && next && (
          <Way path={path(here.position.deg, next.turn.deg)} tip={arrow(place, way, here, next, cycle)} />
        )}
        {plan.stops.map((one, i) => {
          const [x, y] = place(one.position.deg);
          const state = i === stop ? "here" : done[i] ? "done" : "open";
          return (
            <g key={i} class={`stop ${state}`}>
              <circle cx={x} cy={y} r={i === stop ? 17 : 13} />
              <text x={x} y={y + 5} text-anchor="middle">
                {i + 1}
              </text>
            </g>
          );
        })}
      </svg>
      {!small && (
        <figcaption>
          Seen from the {ENDS[report.engine.rotation.seen_from]}, turns {report.engine.rotation.sense}; top is
          firing TDC of {first}, outer lap the first turn.
        </figcaption>
      )}
    </figure>
  );
}

type Place = (position: number, out?: number) => [number, number];
type Stop = PlanReport["stops"][number];

/** The head of the arrow that ends short of the next stop. */
function arrow(place: Place, way: number, here: Stop, next: Stop, cycle: number): string {
  const end = (here.position.deg + next.turn.deg - 8 + cycle) % cycle;
  const [x, y] = place(end);
  return `translate(${x.toFixed(1)} ${y.toFixed(1)}) rotate(${(way * end + (way > 0 ? 0 : 180)).toFixed(1)})`;
}

function Way({ path, tip }: { path: string; tip: string }) {
  return (
    <g class="way">
      <path d={path} />
      <path class="tip" transform={tip} d="M9 0L-7 -9V9z" />
    </g>
  );
}
