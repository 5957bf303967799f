// The engine, its books, its leaves and its warmth, as a form over the document.

import { useState } from "preact/hooks";
import { BooksForm } from "./books-form";
import { asText, isDocument } from "./draft";
import { EngineForm } from "./engine-form";
import { Faults, Line, Pick, problemsAt } from "./field";
import type { StageProps } from "./job";
import { ScrewForm } from "./limits-form";
import { MetalForm } from "./metal-form";
import { PlanForm } from "./plan-form";
import { Problems } from "./problems";
import { moveJob, writeJob } from "./state";
import { useTypedText } from "./typed-text";
import { RULES } from "./words";
import type { Problem } from "./kernel";
import { ValvesForm } from "./valves-form";
import { whyNot } from "./whole";

export function Describe({ state, job, answer, sheet, clearance }: StageProps) {
  const { unit, gauge } = state.settings;
  const leaves = job.document.clearance.gauge.leaves.map(asText);
  return (
    <form class="describe" onSubmit={(event) => event.preventDefault()}>
      <Problems problems={answer.problems} />
      <Line sheet={sheet} at="/title" label="Name of the job" kind="text" />
      <EngineForm sheet={sheet} unit={unit} />
      <ValvesForm sheet={clearance} />
      <PlanForm sheet={clearance} cylinders={job.document.engine.cylinders} />
      <ScrewForm sheet={clearance} />
      <BooksForm sheet={clearance} unit={unit} warmth={state.settings.warmth} />
      <MetalForm sheet={clearance} warmth={state.settings.warmth} />
      <fieldset class="group">
        <legend>Leaves and rule</legend>
        <p>
          {leaves.length} leaves: {leaves.join(", ") || "none yet"}.
        </p>
        <div class="fields">
          <button type="button" onClick={() => clearance.write("/gauge", gauge)}>
            Use my set from Settings
          </button>
          <Pick
            sheet={clearance}
            at="/rule"
            label="Rule for the verdict"
            choices={[
              ["", "not said"],
              ...Object.entries(RULES).map(([rule, [name]]) => [rule, name] as const),
            ]}
          />
        </div>
        <Faults id="at.gauge.faults" problems={problemsAt(clearance.problems, "/gauge")} />
      </fieldset>
      <Line sheet={sheet} at="/note" label="Note" kind="text" />
      <AsText document={job.document} />
      <button
        type="button"
        class="main"
        disabled={!answer.report}
        onClick={() => moveJob({ stage: job.cautionsRead ? "turn" : "cautions" })}
      >
        {answer.report ? "On to the engine" : "Correct what is marked first"}
      </button>
    </form>
  );
}

/** The whole document as text, for what the form has no field for. */
function AsText({ document }: { document: object }) {
  const [typed, setTyped] = useTypedText("edited");
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const text = typed ?? JSON.stringify(document, null, 2);
  const take = () => {
    let found: unknown;
    try {
      found = JSON.parse(text);
    } catch {
      return setProblems(whyNot(text));
    }
    if (!isDocument(found)) return setProblems(whyNot(text));
    writeJob(found);
    setTyped(undefined);
    setProblems([]);
  };
  return (
    <details>
      <summary>The document as text</summary>
      <div class="field">
        <label for="document.text">For what has no field above</label>
        <textarea
          id="document.text"
          rows={14}
          spellcheck={false}
          value={text}
          aria-describedby="document.text.faults"
          onInput={(event) => setTyped(event.currentTarget.value)}
        />
        <div id="document.text.faults">
          <Problems problems={problems} />
        </div>
      </div>
      <button type="button" disabled={typed === undefined} onClick={take}>
        Take this text
      </button>
    </details>
  );
}
