// The advance by speed, drawn: what the book asks for, what was read, and the curve as it was fitted.

import { Fold } from "../fields";
import { Grid, named } from "../grid";
import type { AdvanceReport } from "../kernel";
import { Table, tenth } from "./told";

const WIDTH = 340;
const HEIGHT = 236;
const LEFT = 34;
const RIGHT = 330;
const TOP = 22;
const FLOOR = 196;

export function AdvanceCurve({ found }: { found: AdvanceReport }) {
  const { rows, band, line } = found;
  const ends = band.flatMap(({ least, most }) => [least?.deg_btdc, most?.deg_btdc]);
  const read = rows.flatMap(({ sparks, uncertainty_deg: u }) => [sparks.deg_btdc - u, sparks.deg_btdc + u]);
  const all = [...ends, ...read, ...line.map(({ sparks }) => sparks.deg_btdc), 0].filter((d) => d != null);
  const [low, high] = [Math.min(...all), Math.max(...all) + 1];
  const fastest = Math.max(...[...band, ...rows].map(({ speed }) => speed.rpm), 1);
  const x = (rpm: number) => LEFT + (rpm / fastest) * (RIGHT - LEFT);
  const y = (deg: number) => FLOOR - ((deg - low) / (high - low)) * (FLOOR - TOP);
  const path = (points: readonly (readonly [number, number | undefined])[]) =>
    points.flatMap(([rpm, deg]) => (deg == null ? [] : [`${x(rpm).toFixed(1)} ${y(deg).toFixed(1)}`]));
  const least = path(band.map(({ speed, least }) => [speed.rpm, least?.deg_btdc]));
  const most = path(band.map(({ speed, most }) => [speed.rpm, most?.deg_btdc]));
  const fitted = path(line.map(({ speed, sparks }) => [speed.rpm, sparks.deg_btdc]));
  const draw = (points: string[], width: number, dashes?: string) =>
    points.length > 1 && (
      <path
        fill="none"
        stroke={dashes ? "var(--in-band)" : "var(--deep)"}
        stroke-width={width}
        stroke-dasharray={dashes}
        d={`M${points.join("L")}`}
      />
    );
  return (
    <figure class="dial">
      <svg
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        role="img"
        aria-label={`Advance by speed, ${rows.length} readings: ${found.summary}. The numbers stand below.`}
      >
        {least.length > 1 && most.length > 1 && (
          <path class="zone band" d={`M${least.join("L")}L${[...most].reverse().join("L")}z`} />
        )}
        <Grid
          left={LEFT}
          right={RIGHT}
          floor={FLOOR}
          x={x}
          y={y}
          up={named(low, high, 6)}
          along={named(0, fastest, 4)}
          of="deg BTDC"
          by="rpm of the crank"
        />
        {draw(least, 2, "6 4")}
        {draw(most, 2, "6 4")}
        {draw(fitted, 3)}
        {rows.map(({ speed, sparks, uncertainty_deg: u }, i) => (
          <g key={i} stroke="var(--ink)" stroke-width="2">
            <path
              fill="none"
              d={`M${x(speed.rpm) - 7} ${y(sparks.deg_btdc + u)}h14m-7 0V${y(sparks.deg_btdc - u)}m-7 0h14`}
            />
            <circle cx={x(speed.rpm)} cy={y(sparks.deg_btdc)} r="2.5" fill="var(--sheet)" />
          </g>
        ))}
      </svg>
      <figcaption class="hint">
        Dashed: what the book lets it be. Thick: as fitted. Dots: read, with their standard uncertainty.
      </figcaption>
      <Fold title="As numbers">
        <Table
          label="Advance in numbers"
          head={["rpm", "Read, deg BTDC", "±", "Book"]}
          rows={rows.map(({ speed, sparks, uncertainty_deg: u, judged }) => [
            Math.round(speed.rpm),
            tenth(sparks.deg_btdc),
            tenth(u),
            judged.limits,
          ])}
        />
      </Fold>
    </figure>
  );
}
