// The packed package: what is in it, how it is found, and that it works where it is installed.

import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { homedir } from "node:os";
import { join } from "node:path";
import { after, test } from "node:test";
import { GOALS, keepTo, sizeOf } from "../tools/sizes.mjs";
import { output, pkg, projectWithPackage, root, tool } from "./support.mjs";

const project = projectWithPackage();
after(project.remove);

const CHECK = `{ valve: "intake", reading: { goes: ["0.12 mm"], refuses: ["0.15 mm"] },
  limits: { set_to: "0.20 mm", set: { from: "0.15 mm", to: "0.25 mm" } } }`;
const inProject = (words) => output("node", words, { cwd: project.folder }).trim();

test("node imports it, by its name and by each entry", () => {
  for (const name of ["lashwork", "lashwork/node", "lashwork/quick"]) {
    const script = `import { quickCheck } from "${name}"; console.log(quickCheck(${CHECK}).judged.verdict);`;
    assert.equal(inProject(["--input-type=module", "-e", script]), "below", name);
  }
  const waiting = { "lashwork/web": "lashwork", "lashwork/bundler": "lashwork", "lashwork/quick/web": "quick" };
  for (const [name, file] of Object.entries(waiting)) {
    const script = `import { readFileSync } from "node:fs"; import { init, quickCheck } from "${name}";
      await init(readFileSync(new URL(import.meta.resolve("lashwork/${file}.wasm"))));
      console.log(quickCheck(${CHECK}).judged.verdict);`;
    assert.equal(inProject(["--input-type=module", "-e", script]), "below", name);
  }
});

test("the ignition's questions have an entry of their own", () => {
  const asked = `console.log(ignitionCheck({ dwell: { lobes: 4, reading: { shows: "50 %", uncertainty: "1 deg" } } }).dwell.reading.value.deg);`;
  const script = `import { ignitionCheck } from "lashwork/ignition"; ${asked}`;
  assert.equal(inProject(["--input-type=module", "-e", script]), "45");
  const waiting = `import { readFileSync } from "node:fs";
    import { init, ignitionCheck } from "lashwork/ignition/web";
    await init(readFileSync(new URL(import.meta.resolve("lashwork/ignition.wasm"))));
    ${asked}`;
  assert.equal(inProject(["--input-type=module", "-e", waiting]), "45");
});

test("node requires it", () => {
  const script = `console.log(require("lashwork").quickCheck(${CHECK}).judged.verdict);`;
  assert.equal(inProject(["--no-warnings", "--input-type=commonjs", "-e", script]), "below");
});

test("it holds the WebAssembly files, runs nothing on installing and needs nothing", () => {
  const manifest = JSON.parse(readFileSync(join(project.installed, "package.json"), "utf8"));
  assert.equal(manifest.scripts, undefined);
  assert.equal(manifest.dependencies, undefined);
  assert.match(manifest.version, /^\d+\.\d+\.\d+$/);
  const files = readdirSync(project.installed, { recursive: true, withFileTypes: true });
  const names = files.filter((file) => file.isFile()).map((file) => file.name);
  assert.deepEqual(names.filter((name) => name.endsWith(".wasm")).sort(), Object.keys(GOALS).sort());
  for (const needed of ["LICENSE-MIT", "LICENSE-APACHE", "README.md", "index.d.ts", "document.d.ts", "report.d.ts"]) {
    assert.ok(names.includes(needed), needed);
  }
});

test("publint finds nothing", () => {
  assert.match(output(tool("publint"), ["--strict", pkg]), /All good/);
});

test("each entry finds its types in node and in bundlers", () => {
  const words = ["--profile", "esm-only", "--exclude-entrypoints", "lashwork.wasm", "quick.wasm", "ignition.wasm", "parts/*.wasm", "document.schema.json", "report.schema.json", "ignition_check.schema.json"];
  output(tool("attw"), [project.tarball, ...words]);
});

for (const [name, goal] of Object.entries(GOALS)) {
  test(`${name} keeps its size, asks for nothing but errors, and names no path of its maker`, () => {
    const bytes = readFileSync(join(pkg, "glue", name));
    keepTo(name, sizeOf(bytes), goal);
    const module = new WebAssembly.Module(bytes);
    // Throwing, copying a column back, and a table of references: nothing of the outside world.
    // What a part has of the main file is the kernel's own.
    const outside = WebAssembly.Module.imports(module).filter((of) => of.module !== "m");
    const imports = outside.map(({ name }) => name.replace(/^__wbg_|_[0-9a-f]{16}$/g, ""));
    const plain = ["__wbindgen_copy_to_typed_array", "__wbindgen_init_externref_table", "__wbindgen_throw"];
    assert.deepEqual(imports.filter((name) => !plain.includes(name)), []);
    const text = bytes.toString("latin1");
    for (const path of [homedir(), root.replace(/\/$/, ""), ".cargo/registry", "/usr/lib/rustlib"]) {
      assert.ok(!text.includes(path), path);
    }
  });
}
