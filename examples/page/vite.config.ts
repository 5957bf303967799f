// Builds the page into dist/: plain files with relative addresses that work from any folder.
import { createHash } from "node:crypto";
import { readFileSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { defineConfig, type Plugin } from "vite";
import { keepTo, sizeOf } from "../../bindings/wasm/tools/sizes.mjs";
import { policy } from "./policy.mjs";

/**
 * The most that the page may weigh: the sum of its files, each with gzip -9 by itself. The WebAssembly files
 * have goals of their own.
 */
const GOALS = {
  /** What is fetched before one valve can be judged: the page, its style, the first chunk. */
  "the first view": { gzip: 30_500 },
  /**
   * That, what is loaded after it for whole engines with the ways to the later steps, the invented engines to try
   * all of it with, the worker, the icons.
   */
  "the page without WebAssembly": { gzip: 62_100 },
  /** All steps after the valves and the view over all of them, and what they share with the questions. */
  steps: { gzip: 30_500 },
  /** Questions of the ignition without an engine: five forms, what they show, and the glue of their file. */
  figures: { gzip: 5_500 },
  /** All of it that is a script. */
  "all JavaScript": { gzip: 90_000 },
  /** All that a phone keeps besides the WebAssembly files. */
  everything: { gzip: 97_700 },
};

type Modules = { getModuleInfo: (id: string) => { importedIds: string[] } | null };

/**
 * The chunk of a module: what the first view needs, or all that may come after it. Few chunks, because what
 * is alike in two parts weighs least where it stands in one file.
 */
function chunkOf(id: string, modules: Modules): string {
  const reach = (id: string) => {
    if (needed.has(id)) return;
    needed.add(id);
    modules.getModuleInfo(id)?.importedIds.forEach(reach);
  };
  reach(fileURLToPath(new URL("index.html", import.meta.url)));
  return needed.has(id) ? "first" : "later";
}
const needed = new Set<string>();

/** What the later steps and the questions without an engine have in common. */
const SHARED = /\/src\/(fields|ignition\/(told|lists|printed|speeds))\./;
/** The questions without an engine, with what answers them. */
const FIGURES = /\/src\/figures\/|\/pkg\/(glue\/)?ignition\.js/;
/**
 * Every step after the valves, and the view over all of them: what is alike in them weighs least in one file. What is
 * next over all of them is said at the valves, too.
 */
const STEPS = /\/src\/(steps\/(?!ask|next)|condition\/|ignition\/|mixture\/|history\/|service\/|keyed)/;
/** The invented engines to try all of it with: they are alike, too. */
const EXAMPLES = /\/examples\/data\//;
const isLater = (id: string) => [SHARED, FIGURES, STEPS, EXAMPLES].some((part) => part.test(id));

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

/** Whether a file is of the later steps, or of the questions without an engine. */
const isOfSteps = (name: string) => /^assets\/(steps|shared)/.test(name);
const isFigures = (name: string) => /^assets\/figures/.test(name);

/** Prints what every file weighs, and fails if they weigh too much together. */
function report(sizes: Sizes): void {
  const line = (name: string, { raw, gzip }: Sizes[number][1]) =>
    console.log(`  ${name.padEnd(42)} ${String(raw).padStart(9)} ${String(gzip).padStart(9)}`);
  const everything = sizes.filter(([name]) => !name.endsWith(".wasm"));
  const page = everything.filter(([name]) => !isOfSteps(name) && !isFigures(name));
  const first = page.filter(([name]) => comesFirst(name));
  const sum = (of: "raw" | "gzip", files: Sizes) => files.reduce((sum, [, size]) => sum + size[of], 0);
  const whole = (files: Sizes) => ({ raw: sum("raw", files), gzip: sum("gzip", files) });
  console.log(`\n  ${"bytes".padEnd(42)} ${"raw".padStart(9)} ${"gzip".padStart(9)}`);
  for (const [name, size] of sizes) line(name, size);
  const sums = {
    "the first view": whole(first),
    "the page without WebAssembly": whole(page),
    steps: whole(sizes.filter(([name]) => isOfSteps(name))),
    figures: whole(sizes.filter(([name]) => isFigures(name))),
    "all JavaScript": whole(sizes.filter(([name]) => name.endsWith(".js"))),
    everything: whole(everything),
  };
  for (const [name, size] of Object.entries(sums)) {
    line(name, size);
    keepTo(name, size, GOALS[name as keyof typeof GOALS]);
  }
}

export default defineConfig({
  base: "./",
  plugins: [plainImports(), presets(), head(), offline()],
  build: {
    target: "es2022",
    assetsInlineLimit: 0,
    modulePreload: false,
    reportCompressedSize: false,
    rolldownOptions: {
      output: {
        // A group takes what its modules import along, so the first step takes its own before the second.
        codeSplitting: {
          groups: [
            { name: chunkOf, test: (id) => !isLater(id), priority: 4, debugName: "by need" },
            { name: "examples", test: EXAMPLES, priority: 5 },
            { name: "shared", test: SHARED, priority: 3 },
            { name: "figures", test: FIGURES, priority: 2 },
            { name: "steps", test: STEPS, priority: 1 },
          ],
        },
      },
    },
  },
});
