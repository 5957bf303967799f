// What was read over the years, drawn: what was read, its line with its band, where it will be found, and the limits.
// All of it comes as numbers; here they are only put where they belong on the paper.

import { Fold } from "../fields";
import { Grid, named, steps, type Named } from "../grid";
import { Table } from "../ignition/told";
import type { HistoryChartReport } from "../kernel";

const WIDTH = 340;
const HEIGHT = 216;
const LEFT = 40;
const RIGHT = 332;
const TOP = 20;
const FLOOR = 176;

const DAY_MS = 86_400_000;
const DAYS = "d";

/** The places that are named along the time: round numbers, or the first day of a year. */
function places(unit: string, from: number, to: number): Named[] {
  if (unit !== DAYS) return named(from, to, 4);
  const year = (at: number) => new Date(at * DAY_MS).getUTCFullYear();
  return steps(year(from) + 1, year(to), 5)
    .filter(Number.isInteger)
    .map((one) => [Date.UTC(one, 0, 1) / DAY_MS, `${one}`]);
}

interface Props {
  name: string;
  chart: HistoryChartReport;
}

export function PastChart({ name, chart }: Props) {
  const { readings, lines, limits, value_unit: unit, time_unit } = chart;
  const points = lines.flat();
  const values = [
    ...limits,
    ...readings.flatMap(({ low, high, from, to }) => [low, high, from, to]),
    ...points.flatMap(({ found }) => [found.low, found.high]),
  ].filter((value) => value != null);
  const times = [...readings, ...points].map(({ at }) => at);
  if (times.length === 0) return null;
  const [first, last] = [Math.min(...times), Math.max(...times)];
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const x = (at: number) => LEFT + 6 + ((at - first) / (last - first || 1)) * (RIGHT - LEFT - 12);
  const y = (value: number) => FLOOR - ((value - low) / (high - low || 1)) * (FLOOR - TOP);
  const point = (at: number, value: number) => `${x(at).toFixed(1)} ${y(value).toFixed(1)}`;
  const band = (line: typeof points, of: "line" | "found") => {
    const lower = line.map((one) => point(one.at, one[of].low));
    const upper = line.map((one) => point(one.at, one[of].high));
    return `M${[...lower, ...upper.reverse()].join("L")}z`;
  };
  const [count, write] =
    time_unit === DAYS
      ? ["date", (at: number) => new Date(at * DAY_MS).toISOString().slice(0, 10)]
      : [time_unit, (at: number) => `${Math.round(at)}`];
  return (
    <figure>
      <svg
        class="curve"
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        role="img"
        aria-label={`${name}, ${readings.length} readings over the years. The numbers stand below.`}
      >
        {lines.map((line, i) => (
          <g key={i}>
            <path fill="var(--cannot-wash)" d={band(line, "found")} />
            <path fill="var(--in-band-wash)" d={band(line, "line")} />
          </g>
        ))}
        <Grid
          left={LEFT}
          right={RIGHT}
          floor={FLOOR}
          x={x}
          y={y}
          up={steps(low, high, 5).map((value) => [value, Number(value.toFixed(3))])}
          along={places(time_unit, first, last)}
          of={unit}
          by={count}
        />
        {limits.map((end) => (
          <path key={end} class="limit" d={`M${LEFT} ${y(end).toFixed(1)}H${RIGHT}`} />
        ))}
        {lines.map((line, i) => (
          <path key={i} class="set" d={`M${line.map((one) => point(one.at, one.line.value)).join("L")}`} />
        ))}
        {readings.map(({ at, is_left, low: lower, high: upper }, i) => (
          <path
            key={i}
            fill="none"
            stroke="var(--ink)"
            stroke-width="2"
            stroke-dasharray={is_left ? "3 2" : undefined}
            // An open end runs to that of the paper.
            d={`M${x(at).toFixed(1)} ${lower == null ? FLOOR : y(lower).toFixed(1)}V${upper == null ? TOP : y(upper).toFixed(1)}m-4 0h8M${x(at) - 4} ${lower == null ? FLOOR : y(lower).toFixed(1)}h8`}
          />
        ))}
      </svg>
      <figcaption class="hint">
        Marks: read, dashed as left. Line: the drift, with its band. Pale: where it will be found, with 95 %.
        {limits.length > 0 && " Dashed across: the book's limits."}
      </figcaption>
      <Fold title="As numbers">
        <Table
          label={`${name} in numbers`}
          head={[count, `${unit}, from`, "to", ""]}
          rows={[
            ...readings.map(({ at, is_left, low, high }) => [
              write(at),
              low == null ? "open" : low.toFixed(3),
              high == null ? "open" : high.toFixed(3),
              is_left ? "left" : "found",
            ]),
            ...points.map(({ at, found }) => [
              write(at),
              found.low.toFixed(3),
              found.high.toFixed(3),
              "by the drift",
            ]),
          ]}
        />
      </Fold>
    </figure>
  );
}
