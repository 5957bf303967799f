// A server of files on this machine only, with the policy a careful page has.

import { createReadStream, existsSync, statSync } from "node:fs";
import { createServer } from "node:http";
import { extname, join, normalize } from "node:path";

const TYPES = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript",
  ".mjs": "text/javascript",
  ".json": "application/json",
  ".wasm": "application/wasm",
};
export const POLICY = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; connect-src 'self'";

/** Serves folders, each under its prefix; `pages` are texts by path. */
export async function serve(folders, pages = {}, policy = POLICY) {
  const server = createServer((request, response) => {
    const path = normalize(new URL(request.url, "http://localhost").pathname);
    const headers = { "content-security-policy": policy };
    if (path in pages) {
      response.writeHead(200, { ...headers, "content-type": TYPES[extname(path)] });
      response.end(pages[path]);
      return;
    }
    for (const [prefix, folder] of Object.entries(folders)) {
      const file = join(folder, path.slice(prefix.length));
      if (path.startsWith(prefix) && existsSync(file) && statSync(file).isFile()) {
        response.writeHead(200, { ...headers, "content-type": TYPES[extname(file)] ?? "text/plain" });
        createReadStream(file).pipe(response);
        return;
      }
    }
    response.writeHead(404, headers).end();
  });
  await new Promise((ready) => server.listen(0, "127.0.0.1", ready));
  return {
    address: `http://127.0.0.1:${server.address().port}`,
    close: () => new Promise((closed) => {
      server.closeAllConnections();
      server.close(closed);
    }),
  };
}
