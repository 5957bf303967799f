// The entry for node: ready when it is imported, with all parts.

import { readFileSync } from "node:fs";
import { PARTS, initSync } from "./api.js";

/** @param {string} name */
const read = (name) => readFileSync(new URL(`./glue/lashwork_${name}.wasm`, import.meta.url));
initSync(read("bg"), Object.fromEntries(PARTS.map((part) => [part, read(part)])));

export * from "./api.js";
