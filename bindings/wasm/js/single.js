// The functions for single readings, over either WebAssembly file.

import { bytesOf, needNumbers, needWriting, unpacked } from "./arguments.js";
import { misuse } from "./errors.js";

/** The most bins that are drawn; the kernel has the last word. */
const MOST_BINS = 4096;

/**
 * @typedef {"quick_check" | "shares" | "lash_text" | "temperature_text" | "version"} Name
 *
 * @param {Pick<typeof import("./glue/quick.js"), Name>} wasm
 * @param {<T>(work: () => T) => T} call
 */
export function singleReadings(wasm, call) {
  /** @type {typeof import("./index.js").quickCheck} */
  function quickCheck(check) {
    const bytes = bytesOf(check);
    return unpacked("quick", call(() => wasm.quick_check(bytes)));
  }

  /** @type {typeof import("./index.js").shares} */
  function shares(estimate, scale) {
    const { low, high, uncertainty } = estimate ?? {};
    const { from, to, bins } = scale ?? {};
    needNumbers({ low, high, uncertainty, from, to, bins });
    if (!Number.isInteger(bins) || bins < 0 || bins > MOST_BINS) {
      throw misuse("package.argument", `${bins} bins`, `give a whole number from 1 to ${MOST_BINS}`);
    }
    return call(() => {
      const out = new Float64Array(bins);
      unpacked("filled", wasm.shares(low, high, uncertainty, from, to, out));
      return out;
    });
  }

  /** @type {typeof import("./index.js").lashText} */
  function lashText(mm, unit, decimals) {
    needWriting({ mm, decimals }, unit);
    return call(() => unpacked("text", wasm.lash_text(mm, unit, decimals)));
  }

  /** @type {typeof import("./index.js").temperatureText} */
  function temperatureText(celsius, unit, decimals) {
    needWriting({ celsius, decimals }, unit);
    return call(() => unpacked("text", wasm.temperature_text(celsius, unit, decimals)));
  }

  /** @type {typeof import("./index.js").version} */
  function version() {
    return call(() => wasm.version());
  }

  return { quickCheck, shares, lashText, temperatureText, version };
}
