// What the page may load and run: its own files only, nothing written into the page itself.
// WebAssembly needs 'wasm-unsafe-eval'; it allows no evaluation of script.

export const policy = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self'",
  "img-src 'self'",
  "connect-src 'self'",
  "manifest-src 'self'",
  "worker-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join("; ");

/** Headers of every file; what a meta element cannot say is added here. */
export const headers = {
  "Content-Security-Policy": `${policy}; frame-ancestors 'none'`,
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
  "Cross-Origin-Opener-Policy": "same-origin",
  "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
};
