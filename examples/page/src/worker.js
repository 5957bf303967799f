// Keeps every file of one build, so that the page opens without a network after its first visit.
// A new build waits until the page says so: nothing is swapped in the middle of a job.

// Pages in other folders of one server keep their own.
const OWN = `page ${registration.scope} `;
const CACHE = `${OWN}__VERSION__`;
const FILES = __FILES__;

addEventListener("install", (event) => {
  const fill = async () => {
    const cache = await caches.open(CACHE);
    // What has its hash in its name cannot be old, so the browser need not fetch it twice.
    const fresh = (file) => (file.startsWith("./assets/") ? file : new Request(file, { cache: "reload" }));
    await cache.addAll(FILES.map(fresh));
  };
  event.waitUntil(fill());
});

addEventListener("activate", (event) => {
  const tidy = async () => {
    const old = (await caches.keys()).filter((name) => name.startsWith(OWN) && name !== CACHE);
    await Promise.all(old.map((name) => caches.delete(name)));
    await clients.claim();
  };
  event.waitUntil(tidy());
});

addEventListener("message", (event) => {
  if (event.data === "take over") skipWaiting();
});

addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || new URL(request.url).origin !== location.origin) return;
  const answer = async () => {
    const cache = await caches.open(CACHE);
    const wanted = request.mode === "navigate" ? "./" : request;
    return (await cache.match(wanted, { ignoreSearch: true })) ?? fetch(request);
  };
  event.respondWith(answer());
});
