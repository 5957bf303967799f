// Builds the page into dist/: plain files with relative addresses that work from any folder.
import { createHash } from "node:crypto";
import { readFileSync, readdirSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { defineConfig, type Plugin } from "vite";
import { policy } from "./policy.mjs";

/** Largest sum of all files, compressed, in bytes. */
const BUDGET = 150_000;

/** Puts the Content-Security-Policy into the page, and asks for the WebAssembly file at once. */
function head(): Plugin {
  return {
    name: "head",
    apply: "build",
    transformIndexHtml: {
      order: "post",
      handler(html, { bundle }) {
        const file = Object.keys(bundle ?? {}).find((name) => name.endsWith(".wasm"));
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
        const sizes: [string, number][] = [];
        const add = (name: string, content: string | Uint8Array) => {
          hash.update(name).update(content);
          sizes.push([name, gzipSync(content, { level: 9 }).length]);
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
        sizes.push(["worker.js", gzipSync(source, { level: 9 }).length]);
        this.emitFile({ type: "asset", fileName: "worker.js", source });
        report(sizes);
      },
    },
  };
}

function report(sizes: [string, number][]): void {
  const total = sizes.reduce((sum, [, size]) => sum + size, 0);
  const line = (name: string, size: number) =>
    console.log(`  ${name.padEnd(42)} ${String(size).padStart(7)}`);
  console.log("\ncompressed sizes in bytes");
  for (const [name, size] of sizes) line(name, size);
  line("all together", total);
  if (total > BUDGET) console.log(`  above the ${BUDGET} bytes that were aimed at`);
}

export default defineConfig({
  base: "./",
  plugins: [head(), offline()],
  build: {
    target: "es2022",
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
  },
});
