// Completes bindings/wasm/pkg, where the glue already is: the WebAssembly files made small, the types
// of documents and answers, and the files written by hand.

import { execFile } from "node:child_process";
import { cpSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { compile } from "json-schema-to-typescript";
import { GOALS, keepTo, sizeOf } from "./sizes.mjs";

const bindings = fileURLToPath(new URL("..", import.meta.url));
const root = join(bindings, "../..");
const pkg = join(bindings, "pkg");
const schemas = join(root, "crates/lashwork-wire/schema");

/** Features of WebAssembly that the compiler uses and every engine of the last years has. */
const FEATURES = [
  "bulk-memory",
  "bulk-memory-opt",
  "multivalue",
  "mutable-globals",
  "nontrapping-float-to-int",
  "reference-types",
  "sign-ext",
  "simd",
].map((name) => `--enable-${name}`);

/**
 * How it is made small. The compiler has seen to the rest: more passes take ten times as long, and what they save
 * is gone again after gzip.
 */
const SMALL = ["-O1", "--strip-producers", "--strip-target-features"];

/** Makes a WebAssembly file small, and gives what it weighs. */
async function makeSmall(name) {
  const file = join(pkg, "glue", name);
  const small = `${file}.small`;
  await promisify(execFile)(join(bindings, "node_modules/.bin/wasm-opt"), [...SMALL, ...FEATURES, file, "-o", small]);
  const before = statSync(file).size;
  renameSync(small, file);
  const size = sizeOf(readFileSync(file));
  console.log(`${name}: ${size.raw} bytes (${before} before wasm-opt), ${size.gzip} with gzip`);
  return size;
}

/**
 * What stands beside a `$ref` holds besides it; the writer of types would let it stand instead of it.
 */
function besides(schema) {
  if (Array.isArray(schema)) return schema.map(besides);
  if (schema === null || typeof schema !== "object") return schema;
  const entries = Object.entries(schema).map(([name, value]) => [name, besides(value)]);
  const { $ref, description, ...rest } = Object.fromEntries(entries);
  const said = description === undefined ? {} : { description };
  if ($ref === undefined) return { ...said, ...rest };
  return { ...said, allOf: Object.keys(rest).length > 0 ? [rest, { $ref }] : [{ $ref }] };
}

async function schemaAndTypes(of, title) {
  const file = `${of}.schema.json`;
  cpSync(join(schemas, file), join(pkg, file));
  const schema = JSON.parse(readFileSync(join(schemas, file), "utf8"));
  const text = await compile({ ...besides(schema), title }, title, {
    additionalProperties: false,
    bannerComment: "",
    style: { printWidth: 100 },
    unreachableDefinitions: false,
  });
  writeFileSync(join(pkg, `${of}.d.ts`), text);
  return schema;
}

function filesWrittenByHand() {
  cpSync(join(bindings, "js"), pkg, { recursive: true });
  cpSync(join(bindings, "README.md"), join(pkg, "README.md"));
  for (const name of ["LICENSE-MIT", "LICENSE-APACHE"]) {
    cpSync(join(root, name), join(pkg, name));
  }
  const manifest = JSON.parse(readFileSync(join(bindings, "npm/package.json"), "utf8"));
  manifest.version = process.env.LASHWORK_VERSION;
  writeFileSync(join(pkg, "package.json"), `${JSON.stringify(manifest, null, 2)}\n`);
  // wasm-bindgen writes it into the folder for version control, where npm would obey it.
  rmSync(join(pkg, "glue/.gitignore"), { force: true });
}

// Side by side: it takes one processor, and the large file as long as the others together.
const sizes = await Promise.all(Object.keys(GOALS).map(async (name) => [name, await makeSmall(name)]));
const ofADocument = await schemaAndTypes("document", "Document");
writeFileSync(join(pkg, "schema.js"), `export default ${JSON.stringify(ofADocument)};\n`);
await schemaAndTypes("ignition_check", "IgnitionCheck");
await schemaAndTypes("report", "Answer");
filesWrittenByHand();
for (const [name, size] of sizes) {
  keepTo(name, size, GOALS[name]);
}
