// The public face of `lashwork/quick`: the functions for single readings.

export { LashworkError, VERDICTS, init, initSync, judgeColumns, lashText, quickCheck, shares, temperatureText, version } from "./index.js";
export type * from "./index.js";
