// The shape of what is known of a gap, drawn over the band it is held against. The shares of each
// bin come from the kernel; here they only become heights.

import { shares, type JudgedReport, type Lash } from "./kernel";
import { one, type Shown } from "./gaps";
import { chance } from "./words";

const WIDTH = 320;
const HEIGHT = 92;
const FLOOR = 68;
const BINS = 96;

interface Frame {
  from: number;
  to: number;
  x: (at: number) => number;
}

/** What part of the scale is drawn: the band and the reading with some air on both sides. */
function frameOf(judged: JudgedReport): Frame {
  const limits = [judged.limit_low?.mm, judged.limit_high?.mm];
  const ends = [judged.low?.mm, judged.high?.mm];
  const marks = [...limits, ...ends, judged.set_to?.mm].filter((mark) => mark !== undefined);
  const [least, most] = [Math.min(...marks), Math.max(...marks)];
  const air = Math.max((most - least) * 0.18, judged.normal_uncertainty_mm * 4, 0.01);
  const [from, to] = [least - air, most + air];
  return { from, to, x: (at) => ((at - from) / (to - from)) * WIDTH };
}

/** The picture with its text beside it for those who do not see it. */
export function Picture({ judged, title, shown }: { judged: JudgedReport; title: string; shown: Shown }) {
  const frame = frameOf(judged);
  const { below, in_band, above } = judged.probabilities;
  const words = `${title}: too tight ${chance(below)}, in limits ${chance(in_band)}, too loose ${chance(above)}`;
  const low = judged.limit_low ? frame.x(judged.limit_low.mm) : 0;
  const high = judged.limit_high ? frame.x(judged.limit_high.mm) : WIDTH;
  const tick = (limit: Lash | null) =>
    limit && (
      <g class="tick">
        <path d={`M${frame.x(limit.mm)} ${FLOOR}v6`} />
        <text x={frame.x(limit.mm)} y={HEIGHT - 6} text-anchor="middle">
          {one(limit, shown)}
        </text>
      </g>
    );
  return (
    <svg class="picture" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={words}>
      <rect class="zone below" x={0} y={0} width={low} height={FLOOR} />
      <rect class="zone band" x={low} y={0} width={high - low} height={FLOOR} />
      <rect class="zone above" x={high} y={0} width={WIDTH - high} height={FLOOR} />
      <Hatch from={0} to={low} lean={-1} />
      <Hatch from={high} to={WIDTH} lean={1} />
      <Shape judged={judged} frame={frame} />
      <path class="edge" d={`M${low} 0V${FLOOR}M${high} 0V${FLOOR}`} />
      {judged.set_to && <path class="aim" d={`M${frame.x(judged.set_to.mm)} ${FLOOR}l-5 8h10z`} />}
      {tick(judged.limit_low)}
      {tick(judged.limit_high)}
    </svg>
  );
}

/** Slanting lines, so that the zones differ without colour. */
function Hatch({ from, to, lean }: { from: number; to: number; lean: 1 | -1 }) {
  let lines = "";
  for (let x = from + 6; x < to; x += 9) {
    const end = Math.min(to, Math.max(from, x + lean * 10));
    lines += `M${x} ${FLOOR}L${end} 0`;
  }
  return <path class="hatch" d={lines} />;
}

function Shape({ judged, frame }: { judged: JudgedReport; frame: Frame }) {
  const { low, high } = judged;
  const heights =
    low &&
    high &&
    shares(
      { low: low.mm, high: high.mm, uncertainty: judged.normal_uncertainty_mm },
      { from: frame.from, to: frame.to, bins: BINS },
    );
  if (heights) {
    const tallest = Math.max(...heights);
    const step = WIDTH / BINS;
    const top = (share: number) => FLOOR - (share / tallest) * (FLOOR - 8);
    const points = [...heights].map((share, i) => `${(i * step).toFixed(1)} ${top(share).toFixed(1)}`);
    const across = points.map((point, i) => `L${point}H${((i + 1) * step).toFixed(1)}`).join("");
    return <path class="shape" d={`M0 ${FLOOR}${across}V${FLOOR}z`} />;
  }
  const end = low ?? high;
  if (!end) return null;
  const [at, edge] = [frame.x(end.mm), low ? WIDTH : 0];
  const tip = low ? -9 : 9;
  return (
    <g class="open">
      <path d={`M${at} ${FLOOR}V18`} />
      <path d={`M${at} 34H${edge}m0 0l${tip} -6m${-tip} 6l${tip} 6`} />
      <text x={low ? at - 6 : at + 6} y={39} text-anchor={low ? "end" : "start"}>
        {low ? "at least" : "at most"}
      </text>
    </g>
  );
}
