// The parts of the large file: what is there for one section of a document only lies in a file of its own.

import { decoder } from "./arguments.js";
import { misuse } from "./errors.js";

/**
 * Where each part is. Written out, so that bundlers find them.
 *
 * @type {Record<import("./index.js").Part, () => URL>}
 */
const FILES = {
  clearance: () => new URL("./glue/lashwork_clearance.wasm", import.meta.url),
  condition: () => new URL("./glue/lashwork_condition.wasm", import.meta.url),
  ignition: () => new URL("./glue/lashwork_ignition.wasm", import.meta.url),
  mixture: () => new URL("./glue/lashwork_mixture.wasm", import.meta.url),
  history: () => new URL("./glue/lashwork_history.wasm", import.meta.url),
  causes: () => new URL("./glue/lashwork_causes.wasm", import.meta.url),
};

/** Their names, which are those of the sections. */
export const PARTS = /** @type {readonly import("./index.js").Part[]} */ (Object.keys(FILES));

/** The parts of one instance of the main file. */
export function partsOfOne() {
  const there = new Set();
  /** @type {Map<string, Promise<void>>} */
  const coming = new Map();
  const missing = () => PARTS.filter((part) => !there.has(part));

  /**
   * Puts a part in place.
   *
   * @param {import("./index.js").Part} part
   * @param {BufferSource | WebAssembly.Module} source
   * @param {WebAssembly.Exports} main
   */
  function put(part, source, main) {
    if (there.has(part)) return;
    const module = source instanceof WebAssembly.Module ? source : new WebAssembly.Module(source);
    new WebAssembly.Instance(module, { m: main });
    there.add(part);
  }

  /**
   * Fetches parts, each once; after a failure it can be tried again.
   *
   * @param {readonly import("./index.js").Part[]} parts
   * @param {() => Promise<WebAssembly.Exports>} main
   * @param {Partial<Record<import("./index.js").Part, import("./index.js").Source>>} [sources]
   */
  async function fetched(parts, main, sources = {}) {
    /** @param {import("./index.js").Part} part */
    const one = async (part) => {
      // Side by side with the main file, which may still be on its way.
      const [module, exports] = await Promise.all([compiled(sources[part] ?? FILES[part]()), main()]);
      put(part, module, exports);
    };
    await Promise.all(
      parts.map((part) => {
        const known = coming.get(part);
        if (known !== undefined) return known;
        const begun = one(part).catch((why) => {
          coming.delete(part);
          throw why;
        });
        coming.set(part, begun);
        return begun;
      }),
    );
  }

  /**
   * Which parts a document needs and are not there.
   *
   * @param {unknown} document
   */
  function missingFor(document) {
    const open = missing();
    if (open.length === 0) return open;
    const sections = parsed(document);
    return open.filter((part) => part in sections);
  }

  /**
   * @param {unknown} document
   */
  function needThemFor(document) {
    const open = missingFor(document);
    if (open.length > 0) {
      throw misuse(
        "package.part-missing",
        `the section ${open[0]} is asked for, and the file for it is not loaded`,
        "await bring(document) first, or let init() load all parts",
      );
    }
  }

  return { put, fetched, missingFor, needThemFor };
}

/**
 * The sections of a document; none where it cannot be read, which the kernel says better.
 *
 * @param {unknown} document
 */
function parsed(document) {
  if (typeof document === "object" && document !== null && !(document instanceof Uint8Array)) return document;
  try {
    const value = JSON.parse(document instanceof Uint8Array ? decoder.decode(document) : String(document));
    return typeof value === "object" && value !== null ? value : {};
  } catch {
    return {};
  }
}

/**
 * @param {import("./index.js").Source} source
 * @returns {Promise<WebAssembly.Module>}
 */
async function compiled(source) {
  const given = await source;
  if (given instanceof WebAssembly.Module) return given;
  const fetches = typeof given === "string" || given instanceof URL || given instanceof Request;
  const bytes = fetches || given instanceof Response ? await bytesFrom(fetches ? await fetch(given) : given) : given;
  return WebAssembly.compile(bytes);
}

/** @param {Response} response */
async function bytesFrom(response) {
  if (!response.ok) throw new Error(`${response.url}: ${response.status}`);
  return response.arrayBuffer();
}
