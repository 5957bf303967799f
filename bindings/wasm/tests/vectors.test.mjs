// The same bytes as Rust, and a memory that does not grow, in node.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { fullSheet, jobSheet, quickCheck, run, runJson, schema, version } from "../pkg/node.js";
import * as quick from "../pkg/quick-node.js";
import { answers, pkg } from "./support.mjs";

test("every vector and example is answered with the bytes of Rust", () => {
  assert.ok(answers.jobs.length >= 30, `${answers.jobs.length} jobs`);
  for (const { id, request, answer } of answers.jobs) {
    assert.equal(runJson(request), answer, id);
  }
});

test("objects, text and bytes are the same document", () => {
  for (const { id, request, answer } of answers.jobs) {
    const report = JSON.parse(answer).report;
    if (report) {
      assert.deepEqual(run(JSON.parse(request)), report, id);
      assert.deepEqual(run(request), report, id);
      assert.deepEqual(run(new TextEncoder().encode(request)), report, id);
    }
  }
});

test("every sheet is the sheet of Rust", () => {
  let sheets = 0;
  for (const { id, request, sheet, full } of answers.jobs) {
    if (sheet !== null) {
      assert.equal(jobSheet(request), sheet, id);
      assert.equal(fullSheet(request), full, id);
      sheets += 1;
    }
  }
  assert.ok(sheets >= 20, `${sheets} sheets`);
});

test("every quick check is answered as in Rust", () => {
  assert.ok(answers.checks.length >= 20, `${answers.checks.length} checks`);
  for (const check of [quickCheck, quick.quickCheck]) {
    for (const { id, request, answer } of answers.checks) {
      const { quick: report, problems } = JSON.parse(answer);
      if (report) {
        assert.deepEqual(check(JSON.parse(request)), report, id);
      } else {
        assert.throws(() => check(request), { problems }, id);
      }
    }
  }
});

test("schema and version are those of this build", async () => {
  const read = (name) => JSON.parse(readFileSync(`${pkg}/${name}`, "utf8"));
  assert.deepEqual(await schema(), read("document.schema.json"));
  assert.equal(version(), read("package.json").version);
  assert.equal(quick.version(), read("package.json").version);
});

test("thousands of calls, refused ones among them, take no more memory", async () => {
  const { memory } = await import("../pkg/glue/lashwork.js").then((glue) => glue.initSync());
  const all = () => {
    for (const { request } of answers.jobs) {
      runJson(request);
    }
    assert.throws(() => jobSheet("{"));
  };
  all();
  const before = memory.buffer.byteLength;
  const rounds = Math.ceil(3000 / answers.jobs.length);
  for (let round = 0; round < rounds; round += 1) {
    all();
  }
  assert.equal(memory.buffer.byteLength, before);
});
