// A WebAssembly file as the package calls it: arguments into its memory, one call, the bytes of the answer out. What
// takes columns to read, or gives a number or a text, has no use on the page.

type Argument = number | string | Uint8Array | Float64Array;

/** What every file has, and its functions. */
interface Exports extends WebAssembly.Exports {
  memory: WebAssembly.Memory;
  __wbindgen_externrefs: WebAssembly.Table;
  __wbindgen_malloc: (length: number, align: number) => number;
  __wbindgen_free: (at: number, length: number, align: number) => void;
  __wbindgen_start: () => void;
}

const encoder = new TextEncoder();

/** How the file at an address is loaded, and called. `from` and `copy` are how it calls what it is given. */
export function instance(address: () => URL, from: string, copy: string) {
  let wasm: Exports;
  const memory = (at: number, length: number) => new Uint8Array(wasm.memory.buffer, at >>> 0, length);
  const put = (bytes: Uint8Array, align = 1) => {
    const at = wasm.__wbindgen_malloc(bytes.length, align);
    memory(at, bytes.length).set(bytes);
    return [at, bytes.length / align];
  };
  const placed = (argument: Argument) => {
    if (typeof argument === "number") return argument;
    if (typeof argument === "string") return put(encoder.encode(argument));
    if (argument instanceof Uint8Array) return put(argument);
    // A column that is filled: it is handed over, too.
    return [...put(new Uint8Array(argument.buffer), argument.BYTES_PER_ELEMENT), argument];
  };
  const given = {
    [from]: {
      [copy]: (at: number, length: number, to: Float64Array) =>
        new Uint8Array(to.buffer).set(memory(at, length)),
      __wbindgen_init_externref_table() {
        // Where the file looks for what has no number.
        [undefined, undefined, null, true, false].forEach((value, i) =>
          wasm.__wbindgen_externrefs.set(i && 1023 + i, value),
        );
      },
    },
  };
  const load = async () => {
    const answer = await fetch(address());
    if (!answer.ok) throw new Error(`${answer.url}: ${answer.status}`);
    // A server may send it as any file.
    const isNamed = answer.headers.get("content-type") === "application/wasm";
    const { instance } = isNamed
      ? await WebAssembly.instantiateStreaming(answer, given)
      : await WebAssembly.instantiate(await answer.arrayBuffer(), given);
    wasm = instance.exports as Exports;
    wasm.__wbindgen_start();
    return wasm;
  };
  const call = (name: string, ...taken: Argument[]) => {
    const work = wasm[name] as (...taken: unknown[]) => [number, number];
    const [at, length] = work(...taken.flatMap<unknown>(placed));
    const answer = memory(at, length).slice();
    wasm.__wbindgen_free(at, length, 1);
    return answer;
  };
  const functions = new Proxy({}, { get: (_, name: string) => call.bind(null, name) });
  return [load, functions] as const;
}
