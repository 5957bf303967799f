// An instance of a WebAssembly file: loading it once, and knowing when it can be used.

import { LashworkError, misuse } from "./errors.js";

/**
 * @param {(input?: { module_or_path: import("./index.js").Source }) => Promise<unknown>} load
 * @param {(input: { module: BufferSource | WebAssembly.Module }) => unknown} loadSync
 */
export function instanceOf(load, loadSync) {
  /** @type {"none" | "ready" | "trapped"} */
  let state = "none";
  /** @type {Promise<void> | undefined} */
  let loading;
  /** @type {unknown} */
  let exports;

  /**
   * Loads the WebAssembly file. Later calls wait for the first; after a failure it can be tried again.
   *
   * @param {import("./index.js").Source} [source] where it is; beside this module if not given
   * @returns {Promise<void>}
   */
  function init(source) {
    loading ??= start(source).catch((why) => {
      loading = undefined;
      throw why;
    });
    return loading;
  }

  /** @param {import("./index.js").Source} [source] */
  async function start(source) {
    if (state === "none") {
      exports = await load(source === undefined ? undefined : { module_or_path: source });
      state = "ready";
    }
  }

  /**
   * Starts from bytes or from a compiled module, without waiting.
   *
   * @param {BufferSource | WebAssembly.Module} module
   */
  function initSync(module) {
    if (state === "none") {
      exports = loadSync({ module });
      state = "ready";
    }
  }

  /**
   * Makes one call into the instance.
   *
   * @template T
   * @param {() => T} work
   * @returns {T}
   */
  function call(work) {
    if (state !== "ready") {
      throw state === "none" ? notReady() : trapped();
    }
    try {
      return work();
    } catch (why) {
      if (why instanceof LashworkError) {
        throw why;
      }
      // A trap leaves the memory half written: no answer of this instance can be trusted any more.
      state = "trapped";
      throw Object.assign(trapped(), { cause: why });
    }
  }

  /** Whether it can be called. */
  const isReady = () => state === "ready";

  /** What it exports, for the parts that are put in. */
  const exported = () => /** @type {WebAssembly.Exports} */ (exports);

  return { init, initSync, call, isReady, exported };
}

function notReady() {
  return misuse("package.not-ready", "the WebAssembly file is not loaded yet", "await init() first");
}

function trapped() {
  return misuse(
    "package.trapped",
    "the WebAssembly instance broke off in the middle of a call and cannot be used again",
    "reload the page, or start a new worker or process; a document of many megabytes can do this",
  );
}
