// The paper of a drawing: lines across with their values at their left, ticks along the foot with theirs.

interface Props {
  left: number;
  right: number;
  floor: number;
  x: (value: number) => number;
  y: (value: number) => number;
  /** Values and their words, up and along. */
  up: readonly Named[];
  along: readonly Named[];
  /** What is drawn, over the values and under them. */
  of?: string;
  by: string;
}

/** A value and its words. */
export type Named = readonly [value: number, words: string | number];

export const Grid = ({ left, right, floor, x, y, up, along, of: what, by }: Props) => (
  <g class="grid">
    {up.map(([value, words]) => (
      <g key={value}>
        <path d={`M${left} ${y(value).toFixed(1)}H${right}`} />
        <text x={left - 5} y={y(value) + 4} text-anchor="end">
          {words}
        </text>
      </g>
    ))}
    {along.map(([value, words]) => (
      <g key={value}>
        <path d={`M${x(value).toFixed(1)} ${floor}v5`} />
        <text x={x(value)} y={floor + 18} text-anchor="middle">
          {words}
        </text>
      </g>
    ))}
    <text x="2" y="13">
      {what}
    </text>
    <text x={right} y={floor + 36} text-anchor="end">
      {by}
    </text>
  </g>
);

/** Whole steps between two ends, about so many. */
export function steps(from: number, to: number, about: number): number[] {
  // A single reading has one place, and a part of a year no first day of one.
  if (to <= from) return to === from ? [from] : [];
  const rough = (to - from) / about;
  const ten = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((n) => n * ten).find((n) => n >= rough) ?? rough;
  const first = Math.ceil(from / step);
  return [...Array(Math.floor(to / step) - first + 1).keys()].map((i) => (first + i) * step);
}

/** The same, each named by itself. */
export const named = (from: number, to: number, about: number): Named[] =>
  steps(from, to, about).map((value) => [value, value]);
