// The small WebAssembly file by itself: what it answers, what it refuses, and how the whole one helps it out.

import assert from "node:assert/strict";
import { test } from "node:test";
import * as quick from "../pkg/quick-node.js";
import { answers } from "./support.mjs";

/** Where a check states what only the whole file knows. */
const leftOut = ({ metal, screw }) => [
  ...["measured", "parts", "temperatures"].filter((name) => metal?.[name]).map((name) => `/metal/${name}`),
  ...(screw?.lock_nut ? ["/screw/lock_nut"] : []),
];
const problemsOf = (check) => {
  try {
    quick.quickCheck(check);
  } catch (why) {
    return why.problems;
  }
  assert.fail("nothing was thrown");
};

test("it answers as the whole one does, or names what it leaves out", () => {
  const counts = { answered: 0, refused: 0, leftOut: 0 };
  const named = new Set();
  for (const { id, request, answer } of answers.checks) {
    const { quick: report, problems } = JSON.parse(answer);
    const places = leftOut(JSON.parse(request));
    if (places.length > 0) {
      const told = problemsOf(request).filter(({ code }) => code === "build.left-out");
      assert.ok(told.length > 0 && told.every(({ place }) => places.includes(place)), id);
      assert.ok(told.every(({ hint }) => hint.includes('"lashwork"')), id);
      told.forEach(({ place }) => named.add(place));
      counts.leftOut += 1;
    } else if (report) {
      assert.deepEqual(quick.quickCheck(request), report, id);
      counts.answered += 1;
    } else {
      assert.deepEqual(problemsOf(request), problems, id);
      counts.refused += 1;
    }
  }
  assert.ok(Object.values(counts).every((count) => count > 0), JSON.stringify(counts));
  const measured = [{ at: "20 C", lash: "0.20 mm", uncertainty: "0.01 mm" }];
  const metal = { temperature: { is: "60 C" }, measured };
  problemsOf({ valve: "intake", limits: { set_to: "0.20 mm" }, reading: { goes: ["0.20 mm"] }, metal }).forEach(({ place }) => named.add(place));
  assert.deepEqual([...named].sort(), ["/metal/measured", "/metal/parts", "/metal/temperatures", "/screw/lock_nut"]);
});

test("in a program that has loaded the whole file too, that answers what it leaves out", async () => {
  const { request, answer } = answers.checks.find(({ request, answer }) => leftOut(JSON.parse(request)).length > 0 && JSON.parse(answer).quick);
  assert.equal(problemsOf(request)[0].code, "build.left-out");
  const { readFileSync } = await import("node:fs");
  const { initSync } = await import("../pkg/web.js");
  assert.equal(problemsOf(request)[0].code, "build.left-out", "imported, not loaded");
  initSync(readFileSync(new URL("../pkg/glue/lashwork_bg.wasm", import.meta.url)));
  assert.deepEqual(quick.quickCheck(request), JSON.parse(answer).quick);
});
