// Single readings by the small WebAssembly file, for node: ready when it is imported.

import { readFileSync } from "node:fs";
import { initSync } from "./quick.js";

initSync(readFileSync(new URL("./glue/quick_bg.wasm", import.meta.url)));

export * from "./quick.js";
