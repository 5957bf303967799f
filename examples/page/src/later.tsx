// What is not needed for the first answer: loaded when it is wanted, or once the first view stands.

import type { ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";
import { ready } from "./kernel";
import type { State } from "./state";

export type Part = ComponentType<{ state: State }>;

const PARTS = {
  job: async () => (await withWhole(import("./job"))).JobView as Part,
  charts: async () => (await withWhole(import("./charts"))).ChartsView as Part,
  settings: async () => (await import("./settings")).SettingsView as Part,
  service: async () => (await withWhole(import("./service/view"))).ServiceView as Part,
  condition: async () => (await withWhole(import("./condition/view"))).ConditionView as Part,
  history: async () => (await withWhole(import("./history/view"))).HistoryView as Part,
  ignition: async () => (await withWhole(import("./ignition/view"))).IgnitionView as Part,
  mixture: async () => (await withWhole(import("./mixture/view"))).MixtureView as Part,
  figures: async () => {
    const { FiguresView, figuresReady } = await import("./figures/view");
    await figuresReady;
    return FiguresView as Part;
  },
  against: async () => (await withWhole(import("./against"))).Against as Part,
};

/** What answers whole jobs, once it is there. */
let whole: typeof import("./whole") | undefined;

/** A part together with what answers whole jobs. */
async function withWhole<T>(part: Promise<T>): Promise<T> {
  const [found, answers] = await Promise.all([part, import("./whole")]);
  await answers.wholeReady;
  whole = answers;
  return found;
}

/** What a part asks about besides what the job says. */
const ASKED: { [name in keyof typeof PARTS]?: object } = {
  service: { condition: {}, ignition: {}, mixture: {} },
  condition: { condition: {} },
  ignition: { ignition: {} },
  mixture: { mixture: {} },
  history: { history: {} },
};

const loaded: { [name in keyof typeof PARTS]?: Part } = {};

async function load(name: keyof typeof PARTS): Promise<Part> {
  const [part] = await Promise.all([PARTS[name](), ready]);
  return (loaded[name] ??= part);
}

/** Loads the rest of the first step, so that nothing is waited for later. */
export async function loadRest(): Promise<void> {
  await Promise.all((["job", "charts", "settings", "against"] as const).map(load));
}

/** A part of the page; until it is there, a word that it is coming. */
export function Later({ part, state }: { part: keyof typeof PARTS; state: State }) {
  const [, setThere] = useState({});
  const [failed, setFailed] = useState(false);
  const asked = { ...state.job?.document, ...ASKED[part] };
  useEffect(() => {
    setFailed(false);
    load(part)
      .then(() => whole?.bringFor(asked))
      .then(
        () => setThere({}),
        () => setFailed(true),
      );
  }, [part, Object.keys(asked).join()]);
  const Found = loaded[part];
  if (Found && !whole?.lacksFor(asked)) return <Found state={state} />;
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
