// Where a job comes from: an empty sheet, the list of jobs, a file, pasted text, or an invented engine.

import { useRef, useState } from "preact/hooks";
import { at, CLEARANCE, isDocument, put } from "./draft";
import type { Document, Problem } from "./kernel";
import { blank } from "./blank";
import { NEW } from "./layout-form";
import { PRESETS } from "./presets";
import { Problems } from "./problems";
import { dropJob, moveJob, openJob, takeJob, type Job, type Stage, type State } from "./state";
import { count } from "./words";
import { useTypedText } from "./typed-text";
import { ask, bringFor, whyNot } from "./whole";

export function NewJob({ state }: { state: State }) {
  const own = (document: Document): Document => {
    const { gauge, rule } = state.settings;
    return { ...document, clearance: { ...document.clearance, gauge, rule } };
  };
  return (
    <div class="view">
      <h1>Whole engine</h1>
      <button type="button" class="main" onClick={() => (openJob(own(blank())), moveJob({ layout: NEW }))}>
        New engine
      </button>
      {state.shelf.length > 0 && <Shelf jobs={state.shelf} />}
      <section class="card">
        <h2>Open a saved file</h2>
        <OpenText />
      </section>
      <section class="card">
        <h2>Try an invented engine</h2>
        <p class="hint">Made up, with made-up figures, and marked DEMO. Your own set of leaves is used.</p>
        <div class="stack">
          {PRESETS.map((document) => (
            <button type="button" key={document.title} onClick={() => openJob(own(document), { demo: true })}>
              {document.title}
            </button>
          ))}
        </div>
      </section>
    </div>
  );
}

/** Jobs that were put away on this device. */
function Shelf({ jobs }: { jobs: readonly Job[] }) {
  return (
    <section class="card">
      <h2>Jobs on this device</h2>
      <ul class="plain shelf">
        {jobs.map((job) => {
          const name = job.document.title || "Engine without a name";
          const read = count(job.document.clearance.readings?.length ?? 0, "valve");
          return (
            <li key={job.id} class="row">
              <button type="button" onClick={() => takeJob(job.id)}>
                {name}
                <small>
                  {[job.document.record?.date, job.document.record?.machine, `${read} begun`]
                    .filter(Boolean)
                    .join(", ")}
                </small>
              </button>
              <button
                type="button"
                class="quiet"
                aria-label={`Delete ${name}`}
                onClick={() => confirm(`Delete the job "${name}" from this device?`) && dropJob(job.id)}
              >
                Delete
              </button>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

/** Opens text as a job; text that is no job stays in the field, with what is wrong. */
export function OpenText() {
  const [typed, setText] = useTypedText("pasted");
  const text = typed ?? "";
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const [tried, setTried] = useState("");
  const file = useRef<HTMLInputElement>(null);
  const open = async (found: string) => {
    setText(found);
    setTried(found);
    await bringFor(found);
    const text = parsed(found);
    const step = ["condition", "ignition", "mixture"].find((step) => at(text, `/${step}`) !== undefined);
    const isAlone = at(text, CLEARANCE) === undefined && step !== undefined;
    // A document of later steps alone gets an empty sheet for its valves.
    const document = isAlone ? put(text, CLEARANCE, blank().clearance) : text;
    if (!isDocument(document)) return setProblems(whyNot(found));
    setProblems([]);
    setText(undefined);
    if (isAlone) location.hash = step;
    const stage: Stage = !isAlone && ask(found).report ? "cautions" : "describe";
    openJob(document, { stage });
  };
  const read = async (chosen: File | undefined) => {
    if (chosen) await open(await chosen.text());
  };
  const current = text === tried ? problems : [];
  return (
    <div class="stack">
      <label class="button" for="job.file">
        Choose a file
      </label>
      <input
        ref={file}
        id="job.file"
        class="sr"
        type="file"
        accept=".json,.txt,application/json"
        onChange={(event) => void read(event.currentTarget.files?.[0])}
      />
      <div class="field">
        <label for="job.text">or paste its text</label>
        <textarea
          id="job.text"
          rows={4}
          spellcheck={false}
          value={text}
          aria-invalid={current.length > 0}
          aria-describedby="job.text.faults"
          onInput={(event) => setText(event.currentTarget.value || undefined)}
        />
        <div id="job.text.faults">
          <Problems problems={current} />
        </div>
      </div>
      <button type="button" disabled={text.trim() === ""} onClick={() => void open(text)}>
        Open this text
      </button>
    </div>
  );
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
