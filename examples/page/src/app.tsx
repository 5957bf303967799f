// The frame: where one is, what the page has to say, and the view.

import { useEffect, useRef, useState } from "preact/hooks";
import { ready } from "./kernel";
import { Later } from "./later";
import { NAMES, Notices } from "./notices";
import { QuickView, VIEW } from "./quick";
import { bringRest } from "./rest";
import { Safe } from "./safe";
import { useApp } from "./state";
import { FIGURES } from "./words";

const VIEWS = {
  check: [VIEW, "M3 8h18v3H3zM6 13h12v3H6z"],
  job: ["Whole engine", "M5 4h14v16H5zM8 8h8v1.6H8zM8 12h8v1.6H8zM8 16h5v1.6H8z"],
  charts: ["Charts"],
  service: ["Whole service"],
  condition: ["Condition"],
  ignition: ["Ignition"],
  mixture: ["Mixture"],
  history: ["History"],
  causes: ["Causes"],
  figures: [FIGURES],
  settings: [
    "Settings",
    "M4 6h9v2H4zM16 5h3v4h-3zM4 11h3v2H4zM9 10h3v4H9zM14 11h6v2h-6zM4 16h8v2H4zM14 15h3v4h-3z",
  ],
} as const;

type View = keyof typeof VIEWS;

/** The charts and the later steps are reached from the job they belong to. */
const TABS = ["check", "job", "settings"] as const;

/** What is saved of each view. */
const slotOf = (view: View) =>
  view === "check" ? "quick" : view === "figures" || view === "settings" ? view : "job";

const viewNow = (): View => {
  // A step may stand behind the view.
  const name = location.hash.slice(1).split("/")[0]!;
  return name in VIEWS ? (name as View) : "check";
};

export function App() {
  const state = useApp();
  const [view, setView] = useState(viewNow);
  const main = useRef<HTMLElement>(null);
  const [started, setStarted] = useState(false);

  useEffect(() => {
    // A failure is told where the page is started.
    ready.then(
      () => setStarted(true),
      () => undefined,
    );
  }, []);

  useEffect(() => {
    const moved = () => {
      setView(viewNow());
      scrollTo(0, 0);
      main.current?.focus({ preventScroll: true });
    };
    addEventListener("hashchange", moved);
    return () => removeEventListener("hashchange", moved);
  }, []);

  useEffect(() => {
    const root = document.documentElement;
    if (state.settings.theme === "auto") delete root.dataset.theme;
    else root.dataset.theme = state.settings.theme;
  }, [state.settings.theme]);

  useEffect(() => {
    if (view !== "check") bringRest();
  }, [view]);

  useEffect(() => {
    document.title = `${VIEWS[view][0]} – Lash check`;
  }, [view]);

  return (
    <>
      <a class="skip" href="#view" onClick={(event) => (event.preventDefault(), main.current?.focus())}>
        Go to the content
      </a>
      <header class="top">
        <nav aria-label="Views">
          {TABS.map((name) => (
            <a
              key={name}
              href={`#${name}`}
              aria-current={name === view || (name === "job" && slotOf(view) === name) ? "page" : undefined}
            >
              <svg viewBox="0 0 24 24" aria-hidden="true">
                <path d={VIEWS[name][1]} fill-rule="evenodd" />
              </svg>
              {VIEWS[name][0]}
            </a>
          ))}
        </nav>
      </header>
      <Notices state={state} />
      <main id="view" ref={main} tabIndex={-1} aria-label={VIEWS[view][0]}>
        <Safe key={view} slot={slotOf(view)} name={NAMES[slotOf(view)]}>
          {view === "check" && <QuickView state={state} started={started} />}
          {view !== "check" && <Later part={view} state={state} />}
        </Safe>
      </main>
    </>
  );
}
