// What the first answer does not need comes after it: the other views, what answers a whole job, and the
// worker that keeps all of it for offline use.

import { ready } from "./kernel";
import { loadRest } from "./later";
import { keepOffline } from "./update";

/** So long a page may stand without an answer until the rest is brought all the same, for use offline. */
const UNTOUCHED_MS = 30_000;

let begun = false;

/** Brings the rest, once, when the browser has time. */
export function bringRest(): void {
  if (begun) return;
  begun = true;
  whenIdle(() => {
    void loadRest().catch(() => undefined);
    keepOffline();
  });
}

/** Brings the rest to a page that is opened and left alone. */
export function bringRestLater(): void {
  // What an earlier visit has kept is there; only a newer build is looked for.
  if (navigator.serviceWorker?.controller) whenIdle(keepOffline);
  void ready.then(() => setTimeout(bringRest, UNTOUCHED_MS)).catch(() => undefined);
}

function whenIdle(work: () => void): void {
  // Safari does not tell when it has time.
  const idle = window.requestIdleCallback ?? ((work: () => void) => setTimeout(work, 300));
  idle(work, { timeout: 2000 });
}
