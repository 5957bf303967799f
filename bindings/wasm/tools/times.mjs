// Times of the package in node, a line each: name, a tab, nanoseconds. `cargo xtask bench` reads them.

import { readFileSync } from "node:fs";
import { judgeColumns, runJson } from "../pkg/node.js";

const DOCUMENT = readFileSync(new URL("../../../examples/data/inline-four.json", import.meta.url));

/** The readings of `benches/src/fleet.rs`. */
function fleet(rows) {
  const column = (number) => Float64Array.from({ length: rows }, (_, row) => number(row));
  const spread = (step, from, to) => column((row) => from + (to - from) * (((row * step) % rows) / rows));
  const lower = column((row) => 0.1 + 0.05 * (row % 7));
  const low = spread(37, -0.1, 0.15).map((by, row) => lower[row] + by);
  return {
    low,
    high: low.map((end) => end + 0.05),
    uncertainty: spread(61, 0.003, 0.008),
    lower,
    upper: column((row) => 0.17 + 0.05 * (row % 7) + 0.01 * (row % 3)),
    at: spread(89, 10, 80),
    at_uncertainty: spread(97, 1, 3),
    reference: column((row) => (row % 5 === 0 ? 80 : 20)),
    mm_per_kelvin: spread(53, 0.0002, 0.0012),
    mm_per_kelvin_uncertainty: spread(53, 0.00002, 0.00012),
  };
}

/** The median of so many calls, once the engine has compiled what it runs. */
function nanoseconds(work, times) {
  const took = Array.from({ length: 2 * times }, () => {
    const began = process.hrtime.bigint();
    work();
    return Number(process.hrtime.bigint() - began);
  });
  return took.slice(times).sort((a, b) => a - b)[times >> 1];
}

for (const [rows, times] of [
  [10_000, 100],
  [1_000_000, 10],
]) {
  const columns = fleet(rows);
  const work = () => {
    const { refused } = judgeColumns(columns, { rule: "guarded_tight" });
    if (refused.length > 0) throw new Error(refused[0].message);
  };
  console.log(`fleet ${rows}\t${nanoseconds(work, times)}`);
}
console.log(`whole_job\t${nanoseconds(() => runJson(DOCUMENT), 100)}`);
