// What files weigh, and what they may weigh.

import { gzipSync } from "node:zlib";

/**
 * The WebAssembly files and the most they may weigh, in bytes. A page waits for the small one before its
 * first answer, and for that of the ignition before the answer to a question; the large one has what was
 * reached, and a little room: a fifth of it is the ignition, of which the magnetos are some 20 kB, somewhat
 * less than that the mixture, and a fifth the condition, the past services and the causes.
 */
export const GOALS = {
  "lashwork_bg.wasm": { gzip: 810_000 },
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
