// The entry for browsers, workers and bundlers: `await init()` before the first call.

export { init, initSync } from "./instance.js";
export * from "./api.js";
