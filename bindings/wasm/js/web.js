// The entry for browsers, workers and bundlers: `await init()` before the first call.

export * from "./api.js";
