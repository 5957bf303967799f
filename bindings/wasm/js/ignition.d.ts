// The public face of `lashwork/ignition`: questions of the ignition that need no engine.
// `ignition_check.d.ts` is made from the JSON Schema of the questions.

import type { IgnitionCheck } from "./ignition_check.js";
import type { IgnitionCheckReport } from "./report.js";

export { LashworkError, init, initSync, version } from "./index.js";
export type { Source } from "./index.js";
export type { IgnitionCheck } from "./ignition_check.js";
export type { IgnitionCheckReport, Problem } from "./report.js";

/**
 * Answers questions of the ignition that need no engine, each by itself: dwell and gap, how far the spark moves
 * with the dwell, one point by every tool, a winding at the book's temperature, what a coil holds, the advance.
 *
 * @throws {LashworkError} with every problem of the questions
 */
export function ignitionCheck(check: IgnitionCheck | string | Uint8Array): IgnitionCheckReport;
