// Completes bindings/wasm/pkg, where the glue and the report types already are: the WebAssembly
// files made small, the types of a document, and the files written by hand.

import { execFileSync } from "node:child_process";
import { cpSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { compile } from "json-schema-to-typescript";

const bindings = fileURLToPath(new URL("..", import.meta.url));
const root = join(bindings, "../..");
const pkg = join(bindings, "pkg");

/** Features of WebAssembly that the compiler uses and every engine of the last years has. */
const FEATURES = [
  "bulk-memory",
  "bulk-memory-opt",
  "multivalue",
  "mutable-globals",
  "nontrapping-float-to-int",
  "reference-types",
  "sign-ext",
].map((name) => `--enable-${name}`);

/** The WebAssembly files, and the goal for the one that a page waits for, in bytes. */
const FILES = ["lashwork_bg.wasm", "quick_bg.wasm"];
const GOAL = { name: "quick_bg.wasm", raw: 250_000, gzip: 100_000 };

function makeSmall(name) {
  const file = join(pkg, "glue", name);
  const small = `${file}.small`;
  execFileSync(join(bindings, "node_modules/.bin/wasm-opt"), ["-Oz", ...FEATURES, file, "-o", small], {
    stdio: "inherit",
  });
  const before = statSync(file).size;
  renameSync(small, file);
  const bytes = readFileSync(file);
  const zipped = gzipSync(bytes, { level: 9 }).length;
  console.log(`${name}: ${bytes.length} bytes (${before} before wasm-opt), ${zipped} with gzip`);
  if (name === GOAL.name && (bytes.length > GOAL.raw || zipped > GOAL.gzip)) {
    console.log(`  more than the goal of ${GOAL.raw} bytes, ${GOAL.gzip} with gzip`);
  }
}

async function schemaAndTypesOfADocument() {
  const schema = JSON.parse(readFileSync(join(root, "docs/document.schema.json"), "utf8"));
  writeFileSync(join(pkg, "schema.js"), `export default ${JSON.stringify(schema)};\n`);
  const text = await compile({ ...schema, title: "Document" }, "Document", {
    additionalProperties: false,
    bannerComment: "",
    style: { printWidth: 100 },
    unreachableDefinitions: false,
  });
  writeFileSync(join(pkg, "document.d.ts"), text);
}

function filesWrittenByHand() {
  cpSync(join(bindings, "js"), pkg, { recursive: true });
  cpSync(join(bindings, "README.md"), join(pkg, "README.md"));
  cpSync(join(root, "docs/document.schema.json"), join(pkg, "document.schema.json"));
  for (const name of ["LICENSE-MIT", "LICENSE-APACHE"]) {
    cpSync(join(root, name), join(pkg, name));
  }
  const manifest = JSON.parse(readFileSync(join(bindings, "npm/package.json"), "utf8"));
  manifest.version = process.env.LASHWORK_VERSION;
  writeFileSync(join(pkg, "package.json"), `${JSON.stringify(manifest, null, 2)}\n`);
  // wasm-bindgen writes it into the folder for version control, where npm would obey it.
  rmSync(join(pkg, "glue/.gitignore"), { force: true });
}

FILES.forEach(makeSmall);
await schemaAndTypesOfADocument();
filesWrittenByHand();
