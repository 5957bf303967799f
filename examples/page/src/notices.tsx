// What the page has to say about itself: a save that was put aside, a newer build, no saving.

import { useEffect, useState } from "preact/hooks";
import { download } from "./files";
import { openJob, type State } from "./state";
import { forget, kept, type Kept } from "./store";
import { isDocument, at } from "./draft";
import { whenNewer } from "./update";

/** What the slots are called. */
export const NAMES = {
  job: "job",
  shelf: "list of jobs",
  quick: "single valve",
  settings: "settings",
  pasted: "pasted text",
  edited: "document text",
  figures: "ignition figures",
};

export function Notices({ state }: { state: State }) {
  const [aside, setAside] = useState(kept);
  const [takeOver, setTakeOver] = useState<() => void>();
  useEffect(() => whenNewer((take) => setTakeOver(() => take)), []);
  const drop = (key: string) => {
    forget(key);
    setAside(kept());
  };
  return (
    <div class="notices" role="status">
      {takeOver && (
        <p class="notice">
          A newer version of this page is ready.
          <button type="button" onClick={takeOver}>
            Load it now
          </button>
        </p>
      )}
      {!state.saves && (
        <p class="notice">
          This browser does not let the page save. Export the job before you close the page.
        </p>
      )}
      {state.elsewhere && (
        <p class="notice">
          The job was changed in another tab.
          <button type="button" onClick={() => location.reload()}>
            Load that state
          </button>
        </p>
      )}
      {aside.map((one) => (
        <Aside key={one.key} one={one} drop={() => drop(one.key)} />
      ))}
    </div>
  );
}

function Aside({ one, drop }: { one: Kept; drop: () => void }) {
  const name = one.slot in NAMES ? NAMES[one.slot as keyof typeof NAMES] : one.slot;
  const inside = documentIn(one.text);
  return (
    <div class="notice">
      <p>The saved {name} is damaged or from another version and could not be used. It is kept as it was.</p>
      <div class="row">
        <button type="button" onClick={() => download(`kept-${one.slot}.txt`, one.text)}>
          Save it as a file
        </button>
        {inside && (
          <button type="button" onClick={() => (openJob(inside), (location.hash = "job"))}>
            Open the document in it
          </button>
        )}
        <button type="button" onClick={drop}>
          Delete it
        </button>
      </div>
    </div>
  );
}

function documentIn(text: string) {
  try {
    const found: unknown = JSON.parse(text);
    return ["/value/document", "/document", ""].map((place) => at(found, place)).find(isDocument);
  } catch {
    return undefined;
  }
}
