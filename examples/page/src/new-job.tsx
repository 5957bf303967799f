// Where a job comes from: an invented engine, an empty sheet, a file, or pasted text.

import { useRef, useState } from "preact/hooks";
import { isDocument } from "./draft";
import type { Document, Problem } from "./kernel";
import { fresh } from "./first-preset";
import { blank, PRESETS } from "./presets";
import { Problems } from "./problems";
import { openJob, type Settings, type Stage } from "./state";
import { useTypedText } from "./typed-text";
import { ask, whyNot } from "./whole";

export function NewJob({ settings }: { settings: Settings }) {
  const own = (document: Document) => {
    const { gauge, rule } = settings;
    openJob({ ...document, clearance: { ...document.clearance, gauge, rule } });
  };
  return (
    <div class="view">
      <h1>Whole job</h1>
      <p>Stop by stop round the engine, valve by valve, with a report at the end.</p>
      <section class="card">
        <h2>Fill in an engine</h2>
        <button type="button" class="main" onClick={() => own(blank())}>
          New engine
        </button>
      </section>
      <section class="card">
        <h2>Open a job</h2>
        <OpenText />
      </section>
      <section class="card">
        <h2>Try an invented engine</h2>
        <p class="hint">Made up, with made-up figures. Your own set of leaves is used.</p>
        <div class="stack">
          {PRESETS.map((preset) => (
            <button type="button" key={preset.id} onClick={() => own(fresh(preset))}>
              {preset.document.title}
            </button>
          ))}
        </div>
      </section>
    </div>
  );
}

/** Opens text as a job; text that is no job stays in the field, with what is wrong. */
export function OpenText() {
  const [typed, setText] = useTypedText("pasted");
  const text = typed ?? "";
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const [tried, setTried] = useState("");
  const file = useRef<HTMLInputElement>(null);
  const open = (found: string) => {
    setText(found);
    setTried(found);
    const document = parsed(found);
    if (!isDocument(document)) return setProblems(whyNot(found));
    setProblems([]);
    setText(undefined);
    const stage: Stage = ask(found).report ? "cautions" : "describe";
    openJob(document, stage);
  };
  const read = async (chosen: File | undefined) => {
    if (chosen) open(await chosen.text());
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
      <button type="button" disabled={text.trim() === ""} onClick={() => open(text)}>
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
