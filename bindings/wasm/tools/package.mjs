// Completes bindings/wasm/pkg, where the glue and the report types already are: the WebAssembly
// file made small, the types of a document, and the files written by hand.

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

/** The most the file may grow to, in bytes. */
const MOST_RAW = 250_000;
const MOST_GZIP = 100_000;

function makeSmall() {
  const file = join(pkg, "glue/lashwork_bg.wasm");
  const small = `${file}.small`;
  execFileSync(join(bindings, "node_modules/.bin/wasm-opt"), ["-Oz", ...FEATURES, file, "-o", small], {
    stdio: "inherit",
  });
  const before = statSync(file).size;
  renameSync(small, file);
  const bytes = readFileSync(file);
  const zipped = gzipSync(bytes, { level: 9 }).length;
  console.log(`lashwork_bg.wasm: ${bytes.length} bytes (${before} before wasm-opt), ${zipped} with gzip`);
  if (bytes.length > MOST_RAW || zipped > MOST_GZIP) {
    console.log(`  more than the goal of ${MOST_RAW} bytes, ${MOST_GZIP} with gzip`);
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

makeSmall();
await schemaAndTypesOfADocument();
filesWrittenByHand();
