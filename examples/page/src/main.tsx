// Starts the page: the kernel first, then the views, then the worker that keeps them for offline use.

import { render } from "preact";
import { App } from "./app";
import { ready } from "./kernel";
import { keepOffline } from "./update";

const page = document.getElementById("page")!;

try {
  await ready;
  page.replaceChildren();
  render(<App />, page);
} catch (why) {
  const words = document.createElement("p");
  words.role = "alert";
  words.textContent = `The page could not be started: ${String(why)}. Load it again; if that does not help, use a newer browser.`;
  page.replaceChildren(words);
}

addEventListener("load", keepOffline);
if (document.readyState === "complete") keepOffline();
