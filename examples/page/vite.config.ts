// Builds the page into dist/: plain files with relative addresses that work from any folder.
import { createHash } from "node:crypto";
import { readFileSync, readdirSync } from "node:fs";
import { defineConfig, type Plugin } from "vite";
import { keepTo, sizeOf } from "../../bindings/wasm/tools/sizes.mjs";
import { oneGlue } from "./glue.mjs";
import { policy } from "./policy.mjs";

/** The most that the page may weigh: the sum of its files, each with gzip -9 by itself. */
const GOALS = {
  /** What is fetched before one valve can be judged: the page, its style, the first chunk. */
  "the first view": { gzip: 30_500 },
  /** All that a phone keeps besides the WebAssembly files, which have goals of their own. */
  "the page without WebAssembly": { gzip: 90_000 },
};

/** The invented engines to try all of it with: they are alike among themselves only. */
const EXAMPLES = /\/examples\/data\//;

/** Invented engines with nothing read yet; the leaves are those of the user. */
function presets(): Plugin {
  return {
    name: "presets",
    enforce: "pre",
    transform(code, id) {
      if (!/examples\/data\/.*\.json$/.test(id)) return;
      const document = JSON.parse(code);
      // What past services say hangs on what is read now, too.
      if (!document.clearance || document.history) return JSON.stringify(document);
      Object.assign(document.clearance, { readings: [], gauge: { leaves: [] } });
      delete document.clearance.metal?.cooling;
      return JSON.stringify(document);
    },
  };
}

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
          .replace("__FILES__", JSON.stringify(files))
          .replace(/^ *(\/\/.*\n)?/gm, "");
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

/** Whether a file is fetched before one valve can be judged. */
const comesFirst = (name: string) => /^index\.html$|\.css$|assets\/index.*\.js$/.test(name);

/** Prints what every file weighs, and fails if they weigh too much together. */
function report(sizes: Sizes): void {
  const line = (name: string, { raw, gzip }: Sizes[number][1]) =>
    console.log(`  ${name.padEnd(42)} ${String(raw).padStart(9)} ${String(gzip).padStart(9)}`);
  const page = sizes.filter(([name]) => !name.endsWith(".wasm"));
  const sum = (of: "raw" | "gzip", files: Sizes) => files.reduce((sum, [, size]) => sum + size[of], 0);
  const whole = (files: Sizes) => ({ raw: sum("raw", files), gzip: sum("gzip", files) });
  console.log(`\n  ${"bytes".padEnd(42)} ${"raw".padStart(9)} ${"gzip".padStart(9)}`);
  for (const [name, size] of sizes) line(name, size);
  const sums = {
    "the first view": whole(page.filter(([name]) => comesFirst(name))),
    "the page without WebAssembly": whole(page),
  };
  for (const [name, size] of Object.entries(sums)) {
    line(name, size);
    keepTo(name, size, GOALS[name as keyof typeof GOALS]);
  }
}

export default defineConfig({
  base: "./",
  plugins: [oneGlue(), plainImports(), presets(), head(), offline()],
  // Children as arguments of `h` weigh less than in a property.
  oxc: {
    jsx: { runtime: "classic", pragma: "h", pragmaFrag: "Fragment" },
    jsxInject: 'import { h, Fragment } from "preact"',
  },
  build: {
    target: "es2022",
    cssTarget: ["chrome123", "safari17.5", "firefox121"],
    // A hundredth less than the minifier at hand; BSD-2-Clause.
    minify: "terser",
    terserOptions: {
      module: true,
      ecma: 2020,
      compress: {
        passes: 2,
        unsafe: true,
        unsafe_arrows: true,
        pure_getters: true,
        keep_fargs: false,
        pure_funcs: ["Object.freeze"],
      },
    },
    assetsInlineLimit: 0,
    modulePreload: false,
    reportCompressedSize: false,
    rolldownOptions: {
      output: { codeSplitting: { groups: [{ name: "examples", test: EXAMPLES }] } },
    },
  },
});
