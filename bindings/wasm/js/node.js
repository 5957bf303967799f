// The entry for node: ready when it is imported.

import { readFileSync } from "node:fs";
import { initSync } from "./instance.js";

initSync(readFileSync(new URL("./glue/lashwork_bg.wasm", import.meta.url)));

export { init, initSync } from "./instance.js";
export * from "./api.js";
