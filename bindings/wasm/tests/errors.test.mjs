// What is thrown: one class, with codes, places and hints, for documents and for misuse.

import assert from "node:assert/strict";
import { test } from "node:test";
import { LashworkError, jobSheet, quickCheck, run, runJson } from "../pkg/node.js";
import { answers, output, pkg } from "./support.mjs";

const thrown = (work) => {
  try {
    work();
  } catch (why) {
    return why;
  }
  assert.fail("nothing was thrown");
};

test("a refused document throws every problem that Rust finds, from each function", () => {
  let refused = 0;
  for (const { id, request, answer } of answers.jobs) {
    const { problems } = JSON.parse(answer);
    if (problems) {
      for (const ask of [run, jobSheet]) {
        const why = thrown(() => ask(request));
        assert.ok(why instanceof LashworkError && why instanceof Error, id);
        assert.deepEqual(why.problems, problems, id);
        assert.equal(why.code, problems[0].code);
        assert.equal(why.path, problems[0].place);
        assert.equal(why.hint, problems[0].hint);
        assert.ok(why.message.includes(problems[0].message));
      }
      refused += 1;
    }
  }
  assert.ok(refused >= 5, `${refused} refused`);
});

test("a quick check names the place of its fault", () => {
  const why = thrown(() =>
    quickCheck({
      valve: "intake",
      reading: { goes: [0.12] },
      limits: { set_to: "0.20 mm", set: { from: "0.15 mm" } },
    }),
  );
  assert.equal(why.code, "quantity.no-unit");
  assert.equal(why.path, "/reading/goes/0");
});

test("what is no document is refused before the call", () => {
  const ring = {};
  ring.ring = ring;
  for (const wrong of [undefined, null, 7, true, () => {}, Symbol("x"), 7n, ring, { big: 7n }]) {
    for (const ask of [run, runJson, jobSheet, quickCheck]) {
      assert.equal(thrown(() => ask(wrong)).code, "package.argument");
    }
  }
});

test("a page that forgets init is told so; a failing init can be tried again; twice is harmless", () => {
  const script = `
    import { init, initSync, run, version } from ${JSON.stringify(`${pkg}/web.js`)};
    import { readFileSync } from "node:fs";
    const codes = [];
    try { run("{}"); } catch (why) { codes.push(why.code); }
    await init(new Uint8Array([0, 1, 2])).catch(() => codes.push("failed"));
    try { run("{}"); } catch (why) { codes.push(why.code); }
    const bytes = readFileSync(${JSON.stringify(`${pkg}/glue/lashwork_bg.wasm`)});
    await Promise.all([init(bytes), init(bytes)]);
    await init(undefined, []);
    initSync(bytes);
    codes.push(version());
    console.log(codes.join(" "));`;
  const said = output("node", ["--input-type=module", "-e", script]);
  assert.match(said.trim(), /^package.not-ready failed package.not-ready \d+\.\d+\.\d+$/);
});

test("after a trap every call is refused", () => {
  // More bytes than WebAssembly can address: the instance cannot take them and breaks off.
  const script = `
    import { runJson, version } from ${JSON.stringify(`${pkg}/node.js`)};
    const codes = [];
    for (const work of [() => runJson(new Uint8Array(2 ** 32 - 8)), version]) {
      try { work(); } catch (why) { codes.push(why.code); }
    }
    console.log(codes.join(" "));`;
  const said = output("node", ["--input-type=module", "-e", script]);
  assert.equal(said.trim(), "package.trapped package.trapped");
});
