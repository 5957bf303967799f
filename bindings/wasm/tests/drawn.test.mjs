// Documents and columns that nobody wrote: the same bytes as Rust through every door, and never a trap.
//
// `native drawn FILE COUNT SEED` makes more of them; LASHWORK_DRAWN names the file.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import * as whole from "../pkg/node.js";
import * as quick from "../pkg/quick-node.js";
import { answers } from "./support.mjs";

const file = process.env.LASHWORK_DRAWN;
const { drawn } = file === undefined ? answers : JSON.parse(readFileSync(file, "utf8"));
const { LashworkError, fullSheet, jobSheet, run, runJson } = whole;

test("every drawn document is answered with the bytes of Rust through every door", () => {
  let [reports, refused] = [0, 0];
  for (const { id, request, answer, sheet, full, checks } of drawn) {
    assert.equal(runJson(request), answer, id);
    assert.equal(runJson(new TextEncoder().encode(request)), answer, id);
    const { report, problems } = JSON.parse(answer);
    if (report) {
      assert.deepEqual(run(JSON.parse(request)), report, id);
      assert.equal(jobSheet(request), sheet, id);
      assert.equal(fullSheet(request), full, id);
      reports += 1;
    } else {
      for (const door of [run, jobSheet, fullSheet]) {
        assert.throws(() => door(request), { problems }, id);
      }
      refused += 1;
    }
    for (const check of checks) {
      const told = JSON.parse(check.answer);
      for (const door of [whole.quickCheck, quick.quickCheck]) {
        if (told.quick) {
          assert.deepEqual(door(check.request), told.quick, id);
        } else {
          assert.throws(() => door(check.request), { problems: told.problems }, id);
        }
      }
    }
  }
  // Both ways are gone often.
  assert.ok(Math.min(reports, refused) >= drawn.length / 10, `${reports} reports, ${refused} refused`);
});

// Numbers that come again on every run.
let state = 0x9e3779b9;
const below = (end) => {
  state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
  return Math.floor((state / 2 ** 32) * end);
};

test("a document cut or altered anywhere is refused or answered", () => {
  for (const { id, request } of drawn) {
    const bytes = new TextEncoder().encode(request);
    for (let time = 0; time < 4; time += 1) {
      const altered = below(2) ? bytes.slice(0, below(bytes.length)) : bytes.slice();
      altered[below(Math.max(altered.length, 1))] = below(256);
      const told = JSON.parse(runJson(altered));
      assert.ok(told.report !== undefined || told.problems.length > 0, id);
    }
  }
});

const odd = [0, -0, NaN, Infinity, -Infinity, 1e308, 5e-324, -1];
const number = () => (below(8) === 0 ? odd[below(odd.length)] : below(1000) / 10 ** below(5));
const column = (rows) => Float64Array.from({ length: rows }, number);
const part = (list) => list.filter(() => below(8) > 0);

const BAND = { from: "0.15 mm", to: "0.25 mm" };
const HOURS = { limits: BAND, rule: "simple", counted_by: "hours" };
const TESTER = {
  supply: "551 kPa",
  orifice: "1 mm",
  uncertainty: { supply: "3 kPa", orifice: "0.01 mm", shown: "3 kPa", air: "0.1 kPa" },
};
const DOORS = {
  judgeColumns: [["low", "high", "uncertainty"], { limits: BAND, rule: "simple" }],
  lambdaColumns: [["co2", "co", "o2", "hc"], { fuel: "E5", class: "0", shown_as: "hexane" }],
  densityColumns: [["pressure", "temperature", "humidity"], { uncertainty: { pressure: "0.3 kPa", temperature: "1 K", humidity: "5 %" } }],
  leakColumns: [["shown", "air"], TESTER],
  driftColumns: [["at", "low", "high", "uncertainty", "valve"], HOURS],
};

test("no column is a trap", () => {
  for (const [name, [columns, settings]] of Object.entries(DOORS)) {
    let answered = 0;
    for (let time = 0; time < 300; time += 1) {
      const rows = below(12);
      const of = (one) => [one, one === "valve" ? column(rows).map((n) => Math.abs(n) % 3 | 0) : column(below(32) ? rows : below(12))];
      const given = Object.fromEntries((below(4) ? columns : part(columns)).map(of));
      const stated = below(8) ? settings : { [columns[0]]: number() };
      const words = name === "driftColumns" ? [given, below(4), stated] : [given, stated];
      try {
        whole[name](...words);
        answered += 1;
      } catch (why) {
        // Its own, with its reasons; a trap is of another kind.
        assert.ok(why instanceof LashworkError, `${name}: ${why.stack}`);
      }
    }
    assert.ok(answered > 0, `${name} refused all`);
  }
  // It still answers as it did.
  const { request, answer } = answers.jobs[0];
  assert.equal(runJson(request), answer);
});
