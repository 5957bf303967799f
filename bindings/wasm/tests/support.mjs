// Where things are, and a project that has installed the packed package.

import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

export const bindings = fileURLToPath(new URL("..", import.meta.url));
export const root = join(bindings, "../..");
export const pkg = join(bindings, "pkg");

/** The answers of the JSON interface in Rust to every shared vector, example and quick check. */
export const answers = JSON.parse(readFileSync(join(root, "target-wasm/answers.json"), "utf8"));

/** A program of the installed tools. */
export const tool = (name) => join(bindings, "node_modules/.bin", name);

/** Runs a program and gives its output; an error holds the output too. */
export function output(program, words, options = {}) {
  try {
    return execFileSync(program, words, { encoding: "utf8", stdio: "pipe", ...options });
  } catch (why) {
    throw new Error(`${program} ${words.join(" ")}: ${why.message}\n${why.stdout}\n${why.stderr}`);
  }
}

/** Packs the package and installs it from the tarball into a project of its own. */
export function projectWithPackage() {
  const folder = mkdtempSync(join(tmpdir(), "lashwork-project-"));
  output("npm", ["pack", "--silent", "--pack-destination", folder], { cwd: pkg });
  const tarball = readdirSync(folder).find((name) => name.endsWith(".tgz"));
  writeFileSync(join(folder, "package.json"), JSON.stringify({ name: "user", private: true, type: "module" }));
  output("npm", ["install", "--silent", "--offline", "--no-audit", "--no-fund", `./${tarball}`], { cwd: folder });
  return {
    folder,
    tarball: join(folder, tarball),
    installed: join(folder, "node_modules/lashwork"),
    remove: () => rmSync(folder, { recursive: true }),
  };
}

/** The browser that the tests drive. */
export const browser = process.env.LASHWORK_BROWSER ?? "/usr/bin/chromium-headless-shell";
if (!existsSync(browser)) {
  throw new Error(`${browser} is not there: install Chromium or name one in LASHWORK_BROWSER`);
}

/** What it is started with. */
export const SWITCHES = [
  "--headless",
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];
