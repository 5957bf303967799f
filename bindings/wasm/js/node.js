// The entry for node: ready when it is imported.

import { readFileSync } from "node:fs";
import { initSync } from "./api.js";

initSync(readFileSync(new URL("./glue/lashwork_bg.wasm", import.meta.url)));

export * from "./api.js";
