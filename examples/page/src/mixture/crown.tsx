// The idle drawn: speed over the place of the mixture screw, the curve with its band, and where it is highest.

import { Fold } from "../fields";
import { Grid, named } from "../grid";
import { fixed, Table } from "../ignition/told";
import type { IdleReport } from "../kernel";

const WIDTH = 340;
const HEIGHT = 250;
const LEFT = 40;
const RIGHT = 322;
const TOP = 34;
const FLOOR = 204;

export function CrownCurve({ found }: { found: IdleReport }) {
  const { points, readings, now, crown } = found;
  const places = [...points, ...readings, ...(now ? [now] : [])].map(({ turns }) => turns);
  const book = [found.wanted_from?.rpm, found.wanted_to?.rpm].filter((rpm) => rpm != null);
  const read = [...readings, ...(now ? [now] : [])].map(({ rpm }) => rpm);
  // What was read and what the book wants is seen whole; a band that is wider is cut off.
  const seen = [...read, ...points.map(({ rpm }) => rpm), ...book];
  if (readings.length === 0 || places.length < 2) return null;
  const room = 0.12 * (Math.max(...seen) - Math.min(...seen)) || 20;
  const [low, high] = [Math.min(...seen) - room, Math.max(...seen) + room];
  const [first, last] = [Math.min(...places), Math.max(...places)];
  const inside = (value: number, from: number, to: number) => Math.min(Math.max(value, from), to);
  const across = last - first || 1;
  const x = (turns: number) => LEFT + ((inside(turns, first, last) - first) / across) * (RIGHT - LEFT);
  const y = (rpm: number) => FLOOR - ((inside(rpm, low, high) - low) / (high - low)) * (FLOOR - TOP);
  const at = (turns: number, rpm: number) => `${x(turns).toFixed(1)} ${y(rpm).toFixed(1)}`;
  const under = points.map((p) => at(p.turns, p.low_rpm));
  const over = points.map((p) => at(p.turns, p.high_rpm)).reverse();
  const [from, to] = [found.wanted_from?.rpm ?? low, found.wanted_to?.rpm ?? high];
  const wanted = found.wanted_turns;
  return (
    <figure class="dial">
      <svg
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        role="img"
        aria-label={`Speed over the place of the mixture screw, ${readings.length} readings: ${found.verdict_text}. The numbers stand below.`}
      >
        <path class="zone band" d={`M${LEFT} ${y(to)}H${RIGHT}V${y(from)}H${LEFT}z`} />
        <Grid
          left={LEFT}
          right={RIGHT}
          floor={FLOOR}
          x={x}
          y={y}
          up={named(low, high, 5)}
          along={named(first, last, 5)}
          of="rpm"
          by="turns out"
        />
        {points.length > 1 && (
          <>
            <path
              class="fan"
              fill="var(--deep)"
              opacity="0.25"
              d={`M${under.join("L")}L${over.join("L")}z`}
            />
            <path
              fill="none"
              stroke="var(--deep)"
              stroke-width="3"
              d={`M${points.map((p) => at(p.turns, p.rpm)).join("L")}`}
            />
          </>
        )}
        {crown && (
          <g stroke="var(--ink)" stroke-width="2" fill="none">
            <path stroke-dasharray="4 4" d={`M${x(crown.best_turns)} ${y(crown.rpm)}V${FLOOR}`} />
            <path stroke-width="4" d={`M${x(crown.from_turns)} ${FLOOR}H${x(crown.to_turns)}`} />
          </g>
        )}
        {wanted != null && (
          <>
            <path class="aim" d={`M${x(wanted)} ${FLOOR - 2}l8 -13h-16z`} />
            <text x={inside(x(wanted), LEFT + 28, RIGHT - 28)} y={TOP - 8} text-anchor="middle">
              set here
            </text>
            <path stroke="var(--glow)" stroke-width="2" d={`M${x(wanted)} ${TOP - 4}V${FLOOR - 14}`} />
          </>
        )}
        {readings.map(({ turns, rpm }, i) => (
          <circle key={i} cx={x(turns)} cy={y(rpm)} r="5" />
        ))}
        {now && (
          <path
            fill="var(--glow)"
            stroke="var(--ink)"
            stroke-width="2"
            d={`M${x(now.turns)} ${y(now.rpm) - 9}l9 9l-9 9l-9 -9z`}
          />
        )}
      </svg>
      <figcaption class="hint">
        Dots: read. Diamond: now. Green: the speed that the book wants.
        {points.length > 1 && " Thick: as fitted, with its 95 % band."}
        {crown && " Bar at the foot: where the top lies, with 95 %."}
      </figcaption>
      <Fold title="As numbers">
        <Table
          label="Idle in numbers"
          head={["Turns out", "Read, rpm"]}
          rows={readings.map(({ turns, rpm }) => [fixed(turns, 2), fixed(rpm, 0)])}
        />
        {points.length > 1 && (
          <Table
            label="Curve in numbers"
            head={["Turns out", "Curve, rpm", "From, 95 %", "To"]}
            rows={points
              .filter((_, i) => i % 4 === 0)
              .map((p) => [fixed(p.turns, 2), fixed(p.rpm, 0), fixed(p.low_rpm, 0), fixed(p.high_rpm, 0)])}
          />
        )}
      </Fold>
    </figure>
  );
}
