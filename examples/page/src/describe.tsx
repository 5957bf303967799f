// The engine on one screen, and behind it all that some books print besides.

import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { BooksForm } from "./books-form";
import { asText, isDocument } from "./draft";
import { EngineForm } from "./engine-form";
import { Line, Pick, problemsAt } from "./field";
import type { StageProps } from "./job";
import { AdjusterRow, Figures, LayoutForm, NEW, Tiles } from "./layout-form";
import { LAYOUTS } from "./layouts";
import { LeafSet } from "./leaf-set";
import { ScrewForm } from "./limits-form";
import { MetalForm } from "./metal-form";
import { parted, placeOf } from "./needed";
import { placeWords } from "./places";
import { PlanForm } from "./plan-form";
import { focusField, Problems } from "./problems";
import { moveJob, writeJob } from "./state";
import { useTypedText } from "./typed-text";
import { RULES } from "./words";
import type { Problem } from "./kernel";
import { ValvesForm } from "./valves-form";
import { bringFor, whyNot } from "./whole";

export function Describe(props: StageProps) {
  const { job } = props;
  if (job.layout === NEW) return <Tiles job={job} />;
  return <OneScreen {...props} />;
}

function OneScreen({ state, job, answer, sheet: whole, clearance: part }: StageProps) {
  const { unit, warmth } = state.settings;
  const [asked, setAsked] = useState(false);
  const [sheet, clearance] = [
    { ...whole, asked },
    { ...part, asked },
  ];
  const top = useRef<HTMLFormElement>(null);
  // What follows a tile is on one screen: its top is that of the screen.
  useLayoutEffect(() => {
    if (job.layout in LAYOUTS) top.current?.scrollIntoView({ block: "start", behavior: "instant" });
  }, [job.layout]);
  const { needed, wrong } = parted(job.document, answer.problems);
  const names = [...new Set(needed.map((problem) => placeWords(placeOf(problem), job.document)))];
  const leaves = job.document.clearance.gauge.leaves.map(asText);
  const goOn = () => {
    if (answer.report) return moveJob({ stage: job.cautionsRead ? "turn" : "cautions" });
    setAsked(true);
    const [first] = needed.length > 0 ? needed : wrong;
    if (first) focusField(placeOf(first));
  };
  return (
    <form class="describe" ref={top} onSubmit={(event) => event.preventDefault()}>
      <Problems problems={wrong} document={job.document} />
      <LayoutForm job={job} sheet={sheet} />
      <AdjusterRow sheet={clearance} />
      <Figures sheet={clearance} unit={unit}>
        <details class="small">
          <summary>My leaves: {leaves.length}</summary>
          <LeafSet state={state} problems={problemsAt(clearance.problems, "/gauge")} />
        </details>
      </Figures>
      {asked && names.length > 0 && (
        <p class="notice" role="status">
          Still needed: {names.join("; ")}.
        </p>
      )}
      <button type="button" class="main" onClick={goOn}>
        {job.cautionsRead && answer.report ? "On to the engine" : "Cautions, then stop 1"}
      </button>
      <More open={job.layout === "other" || wrong.length > 0}>
        <Line sheet={sheet} at="/title" label="Name of the job" kind="text" />
        <EngineForm sheet={sheet} unit={unit} />
        <ValvesForm sheet={clearance} />
        <PlanForm sheet={clearance} cylinders={job.document.engine.cylinders} />
        <ScrewForm sheet={clearance} />
        <BooksForm sheet={clearance} unit={unit} warmth={warmth} />
        <MetalForm sheet={clearance} warmth={warmth} />
        <Pick
          sheet={clearance}
          at="/rule"
          label="Strictness"
          choices={[
            ["", "not said"],
            ...Object.entries(RULES).map(([rule, [name]]) => [rule, name] as const),
          ]}
        />
        <Line sheet={sheet} at="/note" label="Note" kind="text" />
        <AsText document={job.document} />
      </More>
    </form>
  );
}

/** What only some books print; it stays open once it was opened. */
function More({ open, children }: { open: boolean; children: preact.ComponentChildren }) {
  const [opened, setOpened] = useState(open);
  return (
    <details class="more" open={opened || open} onToggle={(event) => setOpened(event.currentTarget.open)}>
      <summary>Book prints more</summary>
      {children}
    </details>
  );
}

/** The whole document as text, for what the form has no field for. */
function AsText({ document }: { document: object }) {
  const [typed, setTyped] = useTypedText("edited");
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const text = typed ?? JSON.stringify(document, null, 2);
  const take = async () => {
    await bringFor(text);
    let found: unknown;
    try {
      found = JSON.parse(text);
    } catch {
      return setProblems(whyNot(text));
    }
    if (!isDocument(found)) return setProblems(whyNot(text));
    writeJob(found, "the document as text");
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
      <button type="button" disabled={typed === undefined} onClick={() => void take()}>
        Take this text
      </button>
    </details>
  );
}
