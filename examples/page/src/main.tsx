// Starts the page: what judges one valve is on its way before the first view is drawn; the rest comes later.

import { render } from "preact";
import { ready } from "./kernel";
import { App } from "./app";
import { keepClear } from "./clear";
import { bringRestLater } from "./rest";

const page = document.getElementById("page")!;

/** Says why there is no page, and what to do. */
function give(why: unknown): void {
  const words = document.createElement("p");
  words.role = "alert";
  words.textContent = `The page could not be started: ${String(why)}. Load it again; if that does not help, use a newer browser.`;
  render(null, page);
  page.replaceChildren(words);
}

try {
  page.replaceChildren();
  render(<App />, page);
  ready.catch(give);
} catch (why) {
  give(why);
}

addEventListener("focusin", keepClear);
bringRestLater();
