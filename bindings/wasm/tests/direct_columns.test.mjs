// Columns against the shared direct calls, to the bit.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { judgeColumns } from "../pkg/node.js";
import { root } from "./support.mjs";

const { cases } = JSON.parse(readFileSync(join(root, "tests/direct/judging.json"), "utf8"));
const RULES = [, "guarded_tight", "simple", "iso_14253_1"];
const mm = (nanometres) => `${nanometres / 1e6} mm`;

/** A number as the direct calls write it: the bits of a float, or a code. */
const bits = (number) => {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, number);
  return `0x${view.getBigUint64(0).toString(16).padStart(16, "0")}`;
};

test("columns are judged with the bits of the direct calls", () => {
  let rows = 0;
  for (const { id, call, in: given, out } of cases) {
    if (call !== "judge_columns" || out === undefined) {
      continue;
    }
    const [span, from, to, rule, , , ends, low, high, uncertainty] = given;
    const limits = { ...(span !== 3 && { from: mm(from) }), ...(span !== 2 && { to: mm(to) }) };
    // An end that is open is infinite here and of a span of its own in the cases.
    const found = judgeColumns(
      {
        low: Float64Array.from(low, (end, row) => (ends?.[row] === 3 ? -Infinity : end)),
        high: Float64Array.from(high, (end, row) => (ends?.[row] === 2 ? Infinity : end)),
        uncertainty: Float64Array.from(uncertainty),
      },
      { limits, rule: RULES[rule] },
    );
    const sides = [found.below, found.in_band, found.above].flatMap(({ least, most }) => [least, most]);
    const written = low.flatMap((_, row) => [
      found.verdict[row],
      found.provable[row],
      ...sides.map((side) => bits(side[row])),
    ]);
    assert.deepEqual(written, out, id);
    rows += low.length;
  }
  assert.ok(rows >= 80, `${rows} rows`);
});
