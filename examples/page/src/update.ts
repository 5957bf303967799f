// Offline use, and a newer build that waits until it is wanted.

type Told = (takeOver: () => void) => void;

let waiting: ServiceWorker | null = null;
let told: Told | undefined;
let started = false;

/** Calls back when a newer build is ready; it takes over when it is told to. */
export function whenNewer(tell: Told): void {
  told = tell;
  announce();
}

function announce(): void {
  if (!waiting || !told) return;
  const worker = waiting;
  told(() => {
    navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
    worker.postMessage("take over");
  });
}

/** Registers the worker; without one, in a development server say, the page works online only. */
export function keepOffline(): void {
  if (started || !("serviceWorker" in navigator) || import.meta.env.DEV) return;
  started = true;
  void register().catch(() => undefined);
}

async function register(): Promise<void> {
  const registration = await navigator.serviceWorker.register("./worker.js");
  const found = () => {
    waiting = registration.waiting;
    announce();
  };
  if (registration.waiting) found();
  registration.addEventListener("updatefound", () => {
    const fresh = registration.installing;
    fresh?.addEventListener("statechange", () => {
      if (fresh.state === "installed" && navigator.serviceWorker.controller) found();
    });
  });
}
