// Builds the page into dist/: plain files with relative addresses that work from any folder.
import { createHash } from "node:crypto";
import { readFileSync, readdirSync } from "node:fs";
import { defineConfig, type Plugin } from "vite";
import { keepTo, sizeOf } from "../../bindings/wasm/tools/sizes.mjs";
import { policy } from "./policy.mjs";

/** The most that the page may weigh without its WebAssembly files, which have goals of their own. */
const GOAL = { gzip: 60_000 };

/** Puts the Content-Security-Policy into the page, and asks for the small WebAssembly file at once. */
function head(): Plugin {
  return {
    name: "head",
    apply: "build",
    transformIndexHtml: {
      order: "post",
      handler(html, { bundle }) {
        const file = Object.keys(bundle ?? {}).find((name) => /quick_bg.*\.wasm$/.test(name));
        if (!file) throw new Error("the small WebAssembly file is not in the build");
        const attrs = {
          rel: "preload",
          as: "fetch",
          type: "application/wasm",
          crossorigin: "",
          href: `./${file}`,
        };
        return { html: html.replace("%POLICY%", policy), tags: [{ tag: "link", attrs, injectTo: "head" }] };
      },
    },
  };
}

/** Writes the service worker with the list of all files: one build, one cache. */
function offline(): Plugin {
  return {
    name: "offline",
    apply: "build",
    generateBundle: {
      order: "post",
      handler(_options, bundle) {
        const hash = createHash("sha256");
        const files = ["./"];
        const sizes: Sizes = [];
        const add = (name: string, content: string | Uint8Array) => {
          hash.update(name).update(content);
          sizes.push([name, sizeOf(content)]);
          if (name !== "index.html") files.push(`./${name}`);
        };
        for (const name of Object.keys(bundle).sort()) {
          const item = bundle[name]!;
          add(name, item.type === "chunk" ? item.code : item.source);
        }
        for (const name of readdirSync("public").sort()) add(name, readFileSync(`public/${name}`));
        const source = readFileSync("src/worker.js", "utf8")
          .replace("__VERSION__", hash.digest("hex").slice(0, 16))
          .replace("__FILES__", JSON.stringify(files));
        sizes.push(["worker.js", sizeOf(source)]);
        this.emitFile({ type: "asset", fileName: "worker.js", source });
        report(sizes);
      },
    },
  };
}

/** Parts that are loaded later have no style of their own, so nothing has to be fetched before them. */
function plainImports(): Plugin {
  const helper = "\0vite/preload-helper.js";
  return {
    name: "plain-imports",
    enforce: "pre",
    load: (id) => (id === helper ? "export const __vitePreload = (load) => load();" : undefined),
  };
}

type Sizes = [string, ReturnType<typeof sizeOf>][];

/** Prints what every file weighs, and fails if they weigh too much together. */
function report(sizes: Sizes): void {
  const line = (name: string, { raw, gzip }: Sizes[number][1]) =>
    console.log(`  ${name.padEnd(42)} ${String(raw).padStart(9)} ${String(gzip).padStart(9)}`);
  const own = sizes.filter(([name]) => !name.endsWith(".wasm")).map(([, size]) => size);
  const sum = (of: "raw" | "gzip") => own.reduce((sum, size) => sum + size[of], 0);
  const page = { raw: sum("raw"), gzip: sum("gzip") };
  console.log(`\n  ${"bytes".padEnd(42)} ${"raw".padStart(9)} ${"gzip".padStart(9)}`);
  for (const [name, size] of sizes) line(name, size);
  line("the page without WebAssembly", page);
  keepTo("the page without WebAssembly", page, GOAL);
}

export default defineConfig({
  base: "./",
  plugins: [plainImports(), head(), offline()],
  build: {
    target: "es2022",
    assetsInlineLimit: 0,
    modulePreload: false,
    reportCompressedSize: false,
  },
});
