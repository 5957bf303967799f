// The types: strict, true to real answers, and right in what they refuse.

import assert from "node:assert/strict";
import { cpSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, test } from "node:test";
import { answers, bindings, output, pkg, projectWithPackage, tool } from "./support.mjs";

const project = projectWithPackage();
after(project.remove);

/** Both compilers of these days; neither skips the library's own declarations. */
const COMPILERS = [tool("tsc"), join(bindings, "node_modules/typescript-7/bin/tsc")];
const STRICT = ["--noEmit", "--strict", "--exactOptionalPropertyTypes", "--noUncheckedIndexedAccess"];
const MODERN = ["--module", "nodenext", "--target", "es2022", "--lib", "es2022,dom", "--typeRoots", "none"];

const compile = (compiler, ...files) => output(compiler, [...STRICT, ...MODERN, ...files], { cwd: project.folder });

test("a strict program that uses every function compiles, and its mistakes do not", () => {
  for (const program of ["consumer.ts", "ignition_consumer.ts"]) {
    cpSync(join(bindings, "tests", program), join(project.folder, program));
    for (const compiler of COMPILERS) {
      compile(compiler, program);
    }
  }
});

test("the types fit every document that Rust accepts and every answer that Rust gives", () => {
  const lines = ['import type { Document, Problem, QuickCheck, OneValveReport, Report } from "lashwork";'];
  const counts = { Document: 0, Report: 0, Problem: 0, QuickCheck: 0, OneValveReport: 0 };
  // A literal is checked for fields too many as well as for those too few.
  const literal = (type, value) => lines.push(`export const ${type}${(counts[type] += 1)}: ${type} = ${value};`);
  for (const { request, answer } of answers.jobs) {
    const { report, problems } = JSON.parse(answer);
    if (report) {
      literal("Document", request);
      literal("Report", JSON.stringify(report));
    }
    for (const problem of problems ?? []) {
      literal("Problem", JSON.stringify(problem));
    }
  }
  for (const { request, answer } of answers.checks) {
    const { quick } = JSON.parse(answer);
    if (quick) {
      literal("QuickCheck", request);
      literal("OneValveReport", JSON.stringify(quick));
    }
  }
  assert.ok(Object.values(counts).every((count) => count >= 10), JSON.stringify(counts));
  writeFileSync(join(project.folder, "real.ts"), lines.join("\n"));
  compile(COMPILERS[0], "real.ts");
});

test("a type that has drifted from the answers is noticed", () => {
  const { report } = answers.jobs.map(({ answer }) => JSON.parse(answer)).find(({ report }) => report);
  for (const change of [{ extra: 1 }, { engine: undefined }, { assumptions: 7 }]) {
    const text = JSON.stringify({ ...report, ...change });
    writeFileSync(join(project.folder, "drifted.ts"), `import type { Report } from "lashwork";\nexport const r: Report = ${text};`);
    assert.throws(() => compile(COMPILERS[0], "drifted.ts"), /drifted\.ts/);
  }
});

test("no type is any", () => {
  const text = output("grep", ["-nwE", "any|unknown", "index.d.ts", "document.d.ts", "report.d.ts", "ignition.d.ts", "ignition_check.d.ts"], { cwd: pkg });
  // `schema()` gives a JSON Schema, whose values can be anything.
  const outside = (line) => line.replace(/"[^"]*"|^\S+?:\d+:\s*(\/\*)?\*.*/g, "");
  const lines = text.trim().split("\n").filter((line) => /\b(any|unknown)\b/.test(outside(line)));
  assert.deepEqual(lines.map((line) => line.split(":").slice(2).join(":").trim()), [
    "export function schema(): Promise<Record<string, unknown>>;",
  ]);
});

test("the declared names are those the entries export", async () => {
  const declared = new Set();
  for (const [, name] of readFileSync(join(pkg, "index.d.ts"), "utf8").matchAll(/^export (?:function|class|const) (\w+)/gm)) {
    declared.add(name);
  }
  for (const entry of ["web.js", "node.js"]) {
    const names = Object.keys(await import(join(pkg, entry)));
    assert.deepEqual(names.sort(), [...declared].sort(), entry);
  }
  for (const of of ["quick", "ignition"]) {
    const text = readFileSync(join(pkg, `${of}.d.ts`), "utf8");
    const [, list] = /^export \{ (.*) \} from/m.exec(text);
    const own = [...text.matchAll(/^export function (\w+)/gm)].map(([, name]) => name);
    for (const entry of [`${of}.js`, `${of}-node.js`]) {
      assert.deepEqual(Object.keys(await import(join(pkg, entry))).sort(), [...list.split(", "), ...own].sort(), entry);
    }
  }
});

test("the JavaScript of the package agrees with its types", () => {
  const folder = join(project.folder, "source");
  mkdirSync(folder);
  cpSync(pkg, folder, { recursive: true });
  const words = ["--allowJs", "--checkJs", "--noEmit", "--strict", "--module", "nodenext", "--target", "es2022"];
  const types = ["--lib", "es2022,dom,esnext.disposable", "--typeRoots", join(bindings, "node_modules/@types"), "--types", "node"];
  output(tool("tsc"), [...words, ...types, "web.js", "node.js", "quick.js", "quick-node.js", "ignition.js", "ignition-node.js"], { cwd: folder });
});
