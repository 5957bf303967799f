// What is not needed for the first answer: loaded when it is wanted, or once the first view stands.

import type { ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";
import { ready } from "./kernel";
import type { State } from "./state";

type Views = typeof import("./views");
type Part = Exclude<keyof Views, "figuresReady" | "wholeReady" | "bringFor" | "lacksFor">;

/** What a part asks about besides what the job says; those that ask no whole job are left out. */
const ASKED: { [part in Part]?: object } = {
  job: {},
  charts: {},
  against: {},
  service: { condition: {}, ignition: {}, mixture: {} },
  condition: { condition: {} },
  ignition: { ignition: {} },
  mixture: { mixture: {} },
  history: { history: {} },
  causes: { causes: {} },
};

/** The views, and the parts whose answers are there. */
let views: Views | undefined;
const loaded = new Set<Part>();

async function load(part: Part): Promise<void> {
  const [found] = await Promise.all([import("./views"), ready]);
  views = found;
  if (part === "figures") await found.figuresReady();
  if (ASKED[part]) await found.wholeReady();
  loaded.add(part);
}

/** Loads the rest of the first step, so that nothing is waited for later. */
export const loadRest = (): Promise<void> => load("job");

/** A part of the page; until it is there, a word that it is coming. */
export function Later({ part, state }: { part: Part; state: State }) {
  const [, setThere] = useState({});
  const [failed, setFailed] = useState(false);
  const asked = ASKED[part] && { ...state.job?.document, ...ASKED[part] };
  useEffect(() => {
    setFailed(false);
    load(part)
      .then(() => asked && views!.bringFor(asked))
      .then(
        () => setThere({}),
        () => setFailed(true),
      );
  }, [part, Object.keys(asked ?? {}).join()]);
  const Found = loaded.has(part) && (views![part] as ComponentType<{ state: State }>);
  if (Found && !(asked && views!.lacksFor(asked))) return <Found state={state} />;
  if (!failed) return <p class="loading">Loading …</p>;
  return (
    <p class="empty" role="alert">
      This part of the page could not be loaded. When the network is back:{" "}
      <button type="button" onClick={() => location.reload()}>
        Load the page again
      </button>
    </p>
  );
}
