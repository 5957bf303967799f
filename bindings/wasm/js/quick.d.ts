// The public face of `lashwork/quick`: the functions for single readings. `quickCheck` refuses, with the code
// `build.left-out`, what only the whole file knows (`metal.parts`, `metal.temperatures`, `metal.measured`
// and `screw.lock_nut`), unless "lashwork" is loaded too, which then answers.

export { LashworkError, init, initSync, lashText, quickCheck, shares, temperatureText, version } from "./index.js";
export type * from "./index.js";
