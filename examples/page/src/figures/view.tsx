// Questions of the ignition that need no engine, each by itself: numbers and verdicts, and no advice.

import { useState } from "preact/hooks";
import type { IgnitionCheckReport } from "lashwork/ignition";
import { put } from "../draft";
import type { Sheet } from "../field";
import { Assumed } from "../lines";
import { parted, placeOf } from "../needed";
import { placeWords } from "../places";
import { Needed, Parts, useHeading } from "../parts";
import { Problems } from "../problems";
import type { State } from "../state";
import { load, save } from "../store";
import { FIGURES } from "../words";
import { answerTo, type Question, type Typed } from "./ask";
import { CoilForm, WindingForm } from "./coil";
import { DwellForm } from "./dwell";
import { PointForm } from "./point";
import { StrobeForm } from "./strobe";

/** What every form works with. */
export interface FormProps {
  sheet: Sheet;
  report: IgnitionCheckReport | null;
  unit: "mm" | "in";
  warmth: "C" | "F";
}

const FORMS = {
  dwell: ["Dwell", DwellForm],
  point: ["Point", PointForm],
  winding: ["Winding, lead", WindingForm],
  coil: ["Coil at speed", CoilForm],
  advance: ["Strobe reading", StrobeForm],
} as const;

/** What was typed is kept over a reload. */
interface Kept {
  open: Question;
  typed: Typed;
}

const isKept = (value: unknown): value is Kept => {
  const { open, typed } = (value ?? {}) as Partial<Kept>;
  return typeof open === "string" && open in FORMS && typeof typed === "object" && typed !== null;
};

export function FiguresView({ state: { settings } }: { state: State }) {
  const [kept, setKept] = useState<Kept>(() => load("figures", isKept) ?? { open: "dwell", typed: {} });
  const { open, typed } = kept;
  const change = (next: Partial<Kept>) => {
    const whole = { ...kept, ...next };
    save("figures", whole);
    setKept(whole);
  };
  const heading = useHeading(open);
  const isTyped = typed[open] !== undefined;
  const { report, problems } = answerTo(open, typed);
  const { needed, wrong } = parted(typed, isTyped ? problems : []);
  const names = needed.map((problem) => placeWords(placeOf(problem), typed));
  const sheet: Sheet = {
    document: typed,
    problems: isTyped ? problems : [],
    // A part from which all is gone is not asked any more.
    write: (pointer, value) => change({ typed: put(typed, pointer, value) ?? {} }),
    asked: isTyped,
  };
  const [title, Form] = FORMS[open];
  return (
    <div class="view">
      <h1>{FIGURES}</h1>
      <p class="hint">
        One figure at a time, without an engine. What stops the work, the cautions and the order of work come
        with <a href="#ignition">the ignition of a whole engine</a>.
      </p>
      <Parts label="Questions" parts={FORMS} open={open} choose={(one) => change({ open: one })} />
      <Problems problems={wrong} document={typed} />
      <Needed names={names} />
      <section class="card" aria-label={title} key={open}>
        <h2 ref={heading} tabIndex={-1}>
          {title}
        </h2>
        <Form sheet={sheet} report={report} unit={settings.unit} warmth={settings.warmth} />
      </section>
      {report && <Assumed lines={report.assumptions} />}
      {isTyped && (
        <button
          type="button"
          class="quiet"
          onClick={() => change({ typed: { ...typed, [open]: undefined } })}
        >
          Clear this question
        </button>
      )}
    </div>
  );
}
