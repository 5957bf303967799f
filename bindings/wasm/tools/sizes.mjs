// What files weigh, and what they may weigh.

import { gzipSync } from "node:zlib";

/**
 * The WebAssembly files and the most they may weigh, in bytes. A page waits for the small one before its
 * first answer, and for that of the ignition before the answer to a question. A whole job waits for the main
 * file and the parts of the sections it has: they have what was reached, and a little room. The texts of all
 * parts lie in the main file. Columns of drifts are some 10 kB of the history,
 * and some 10 more say once what many valves share, for each of the five kinds of readings. Readings in columns
 * are built for speed, verdict and all, and the main file linked so, which is 16 kB of it.
 */
export const GOALS = {
  "lashwork_bg.wasm": { gzip: 361_000 },
  "lashwork_clearance.wasm": { gzip: 143_000 },
  "lashwork_condition.wasm": { gzip: 54_000 },
  "lashwork_ignition.wasm": { gzip: 129_000 },
  "lashwork_mixture.wasm": { gzip: 104_000 },
  "lashwork_history.wasm": { gzip: 79_000 },
  "lashwork_causes.wasm": { gzip: 20_000 },
  "quick_bg.wasm": { gzip: 105_000 },
  "ignition_bg.wasm": { gzip: 93_000 },
};

/**
 * How large a file is, as it lies and as a server sends it.
 *
 * @param {string | Uint8Array} content
 */
export const sizeOf = (content) => ({
  raw: Buffer.byteLength(content),
  gzip: gzipSync(content, { level: 9 }).length,
});

/**
 * Fails if something weighs more than its goal.
 *
 * @param {string} name
 * @param {{ raw: number, gzip: number }} size
 * @param {{ raw?: number, gzip?: number }} goal
 */
export function keepTo(name, size, goal) {
  for (const how of /** @type {const} */ (["raw", "gzip"])) {
    const most = goal[how] ?? Infinity;
    if (size[how] > most) {
      throw new Error(
        `${name} is too large: ${size[how]} bytes ${how}, and the goal is ${most}; make it smaller, or change the goal and say why`,
      );
    }
  }
}
