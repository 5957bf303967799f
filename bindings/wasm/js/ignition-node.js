// Questions of the ignition that need no engine, for node: ready when it is imported.

import { readFileSync } from "node:fs";
import { initSync } from "./ignition.js";

initSync(readFileSync(new URL("./glue/ignition_bg.wasm", import.meta.url)));

export * from "./ignition.js";
