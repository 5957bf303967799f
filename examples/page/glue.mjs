// The glue of the WebAssembly files, said once: each file has its own of the same helpers, and ways to load that no
// browser of the page needs. An import that is not known here fails the build.
import { readFileSync } from "node:fs";
import { basename } from "node:path";

const IS_GLUE = /\/pkg\/glue\/\w+\.js$/;
const TAKES_GLUE = /\/pkg\/\w+\.js$/;
const IMPORT = /^ {8}(__wb\w+): function/gm;

/** Imports that `src/instance.ts` stands in for: one copies into a column, the other sets up its table. */
const COPY = /^__wbg___wbindgen_copy_to_typed_array_[0-9a-f]+$/;
const TABLE = "__wbindgen_init_externref_table";

/** @returns {import("vite").Plugin} */
export const oneGlue = () => ({
  name: "one-glue",
  enforce: "pre",
  load(id) {
    if (!IS_GLUE.test(id)) return;
    const name = basename(id, ".js");
    const imports = [...readFileSync(id, "utf8").matchAll(IMPORT)].map(([, one]) => one);
    const copy = imports.find((one) => COPY.test(one)) ?? "";
    const other = imports.find((one) => one !== copy && one !== TABLE);
    if (other || !imports.includes(TABLE)) throw new Error(`${id}: src/instance.ts has no ${other ?? TABLE}`);
    return [
      `import { instance } from "/src/instance";`,
      `export const [load, wasm] = instance(() => new URL("${name}_bg.wasm", import.meta.url), "./${name}_bg.js", "${copy}");`,
    ].join("\n");
  },
  transform(code, id) {
    if (!TAKES_GLUE.test(id)) return;
    return code.replace("import load, * as wasm from", "import { load, wasm } from");
  },
});
