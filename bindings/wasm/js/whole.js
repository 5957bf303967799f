// How the small WebAssembly file hands on what it leaves out, in a program that has loaded the whole one too.

/** @type {{ quickCheck?: (check: Parameters<typeof import("./index.js").quickCheck>[0]) => import("./index.js").OneValveReport | undefined }} */
export const whole = {};
