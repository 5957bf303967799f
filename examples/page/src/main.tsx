// Starts the page: the kernel is on its way before the first view is drawn, the worker that keeps all for
// offline use comes last.

import { render } from "preact";
import { ready } from "./kernel";
import { App } from "./app";
import { keepClear } from "./clear";
import { loadRest } from "./later";
import { keepOffline } from "./update";

const page = document.getElementById("page")!;

/** Says why there is no page, and what to do. */
function give(why: unknown): void {
  const words = document.createElement("p");
  words.role = "alert";
  words.textContent = `The page could not be started: ${String(why)}. Load it again; if that does not help, use a newer browser.`;
  render(null, page);
  page.replaceChildren(words);
}

/** The rest, when the first view has had its turn; Safari does not tell when that is. */
function settle(): void {
  const idle = window.requestIdleCallback ?? ((work: () => void) => setTimeout(work, 300));
  const rest = () => {
    void ready.then(loadRest).catch(() => undefined);
    keepOffline();
  };
  idle(rest, { timeout: 2000 });
}

try {
  page.replaceChildren();
  render(<App />, page);
  ready.catch(give);
} catch (why) {
  give(why);
}

addEventListener("focusin", keepClear);
addEventListener("load", settle, { once: true });
if (document.readyState === "complete") settle();
