// A goal that is missed fails.

import assert from "node:assert/strict";
import { test } from "node:test";
import { keepTo, sizeOf } from "../tools/sizes.mjs";

/** A text that gzip makes hardly smaller: the digits of powers of 7. */
const text = (7n ** 5000n).toString();

test("a file is measured as it lies and as it is sent", () => {
  const { raw, gzip } = sizeOf(text);
  assert.equal(raw, text.length);
  assert.ok(gzip > raw * 0.4 && gzip < raw * 0.6, `${gzip} of ${raw}`);
  assert.deepEqual(sizeOf(Buffer.from(text)), { raw, gzip });
  assert.equal(sizeOf("µ").raw, 2);
});

test("what weighs as much as its goal passes, and one byte more fails, raw or with gzip", () => {
  const size = sizeOf(text);
  keepTo("it", size, size);
  keepTo("it", size, { gzip: size.gzip });
  keepTo("it", size, {});
  for (const how of ["raw", "gzip"]) {
    const goal = { ...size, [how]: size[how] - 1 };
    const told = new RegExp(`it is too large: ${size[how]} bytes ${how}, and the goal is ${size[how] - 1}`);
    assert.throws(() => keepTo("it", size, goal), told);
  }
});
