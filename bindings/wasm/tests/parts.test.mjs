// Each document answered by the parts that it needs and no others.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { Worker, isMainThread, parentPort, workerData } from "node:worker_threads";
// Not the entry for node, which loads all parts.
import { PARTS, fullSheet, initSync, quickCheck, runJson } from "../pkg/web.js";
import { answers, pkg } from "./support.mjs";

const SELF = new URL(import.meta.url);
const read = (name) => readFileSync(`${pkg}/glue/lashwork_${name}.wasm`);

/** Which parts a document names. */
function partsOf(request) {
  try {
    const sections = JSON.parse(request);
    return PARTS.filter((part) => typeof sections === "object" && sections !== null && part in sections);
  } catch {
    return [];
  }
}

/** The answers of a fresh instance that has only some parts, and the code of a refusal where it threw. */
function answeredWith(parts, requests) {
  const worker = new Worker(SELF, { workerData: { parts, requests } });
  return new Promise((resolve, reject) => {
    worker.once("message", resolve);
    worker.once("error", reject);
  });
}

if (isMainThread) {
  test("a document is answered with the bytes of Rust by the parts of its sections alone", async () => {
    const jobs = new Map();
    for (const job of answers.jobs) {
      const key = partsOf(job.request).join();
      jobs.set(key, [...(jobs.get(key) ?? []), job]);
    }
    assert.ok(jobs.size >= 8, `${jobs.size} sets of sections`);
    for (const [key, some] of jobs) {
      const parts = key === "" ? [] : key.split(",");
      const found = await answeredWith(
        parts,
        some.map(({ request }) => request),
      );
      some.forEach(({ id, answer, full }, at) => {
        assert.equal(found[at].answer, answer, `${id} with ${key}`);
        if (full !== null) assert.equal(found[at].full, full, `full sheet of ${id} with ${key}`);
      });
    }
  });

  test("what no document stands behind needs no part", async () => {
    const requests = answers.checks.map(({ request }) => request);
    const found = await answeredWith([], { checks: requests });
    answers.checks.forEach(({ id, answer }, at) => {
      const { quick, problems } = JSON.parse(answer);
      assert.deepEqual(found[at], quick ? { quick } : { problems }, id);
    });
  });

  test("a document whose part is missing is refused by name, and the instance goes on", async () => {
    const { request, answer } = answers.jobs.find(({ request }) => partsOf(request).join() === "ignition");
    const without = await answeredWith([], [request, '{"engine": 1}']);
    assert.equal(without[0].code, "package.part-missing");
    assert.match(without[0].message, /ignition/);
    assert.match(without[1].answer, /problems/);
    const [{ answer: found }] = await answeredWith(["ignition"], [request]);
    assert.equal(found, answer);
  });
} else {
  const { parts, requests } = workerData;
  initSync(read("bg"), Object.fromEntries(parts.map((part) => [part, read(part)])));
  const tried = (work) => {
    try {
      return work();
    } catch ({ code, message, problems }) {
      return { code, message, problems };
    }
  };
  const checked = (request) => {
    const found = tried(() => ({ quick: quickCheck(request) }));
    return found.quick ? found : { problems: found.problems };
  };
  const one = (request) =>
    tried(() => ({ answer: runJson(request), ...tried(() => ({ full: fullSheet(request) })) }));
  parentPort.postMessage(requests.checks ? requests.checks.map(checked) : requests.map(one));
}
