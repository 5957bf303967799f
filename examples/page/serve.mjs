// Serves a folder of static files on this machine only: `node serve.mjs [folder] [port]`.
import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { extname, join, normalize, resolve, sep } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { headers } from "./policy.mjs";

const TYPES = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json",
};

/** Starts a server; port 0 takes a free one. Gives the address and a way to end it. */
export async function serve(folder, port = 0) {
  const root = resolve(folder);
  const server = createServer(async (request, response) => {
    const path = decodeURIComponent(new URL(request.url ?? "/", "http://localhost").pathname);
    const file = join(root, normalize(path.endsWith("/") ? `${path}index.html` : path));
    try {
      if (!file.startsWith(root + sep)) throw new Error("outside the folder");
      const body = await readFile(file);
      const type = TYPES[extname(file)] ?? "application/octet-stream";
      response.writeHead(200, { ...headers, "Content-Type": type, "Cache-Control": "no-cache" });
      response.end(body);
    } catch {
      response.writeHead(404, { ...headers, "Content-Type": "text/plain" });
      response.end("not found\n");
    }
  });
  await new Promise((done, failed) => server.once("error", failed).listen(port, "127.0.0.1", done));
  return {
    address: `http://localhost:${server.address().port}/`,
    close: () =>
      new Promise((done) => {
        server.close(done);
        server.closeAllConnections();
      }),
  };
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const folder = process.argv[2] ?? fileURLToPath(new URL("dist", import.meta.url));
  const { address } = await serve(folder, Number(process.argv[3] ?? 0));
  console.log(`The page is at ${address} (end with Ctrl+C)`);
}
