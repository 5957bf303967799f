// One valve, at once: say which one and that it is closed, tap what goes, tap what does not, read what to do.

import { Lines } from "./lines";
import { useEffect, useLayoutEffect, useState } from "preact/hooks";
import { AnswerCard, asksIfClosed, Demo, NothingGoes, Peek } from "./answer";
import { nextLeaf } from "./besides";
import { BookFigure, figureOf } from "./book-figure";
import { checked, cautionsOf, type Checked } from "./check";
import { asText, at, CLEARANCE, put } from "./draft";
import { Chips, Line, problemsAt, type Sheet } from "./field";
import { bare, echo, progressOf, untouched } from "./felt";
import type { JudgedReport } from "./kernel";
import { Later } from "./later";
import { LeafPicker } from "./leaves";
import { parted } from "./needed";
import { Problems } from "./problems";
import { bringRest } from "./rest";
import { changeQuick, type Quick, type State } from "./state";
import { Warmth, warmthActs } from "./warmth";
import { FIGURES, KINDS, VERDICTS } from "./words";

export function QuickView({ state, started }: { state: State; started: boolean }) {
  const { quick, settings } = state;
  const { valve: kind, felt } = quick;
  const answer = checked(quick, settings);
  const { needed, wrong: problems } = parted(quick.base.clearance, answer.problems);
  const valve = valveOf(quick, answer);
  const answered = valve !== undefined;
  useEffect(() => {
    if (answered) bringRest();
  }, [answered]);
  const [sure, setSure] = useState(false);
  // Before the next paint: a tick that is set the moment the new question is there stays.
  useLayoutEffect(() => setSure(false), [kind, felt.goes]);
  const base: Sheet = {
    document: quick.base.clearance,
    problems,
    assumptions: answer.assumptions,
    write: (pointer, value) => changeQuick({ base: put(quick.base, CLEARANCE + pointer, value) }),
  };
  /** Whether something is wrong that does not stand at the reading. */
  const beside = problemsAt(problems, "/reading").length < problems.length;
  const shimmed = at(base.document, "/valves/shim") !== undefined;
  const figure = kind && figureOf(base, kind);
  const asking = valve !== undefined && asksIfClosed(felt, valve.judged) && !sure;
  // A valve that is named anew is another valve.
  const closed = (valve: "intake" | "exhaust") =>
    changeQuick({
      valve,
      ...(progressOf(felt) === "both" && { felt: untouched(settings.spread), shim: "" }),
    });
  return (
    <div class="view quick">
      <h1>
        {VIEW} {quick.demo && <Demo />}
      </h1>
      <div class="columns">
        <div class="inputs">
          <Closed quick={quick} pick={closed} />
          {kind && (
            <BookFigure
              key={kind}
              kind={kind}
              sheet={base}
              leaves={settings.gauge.leaves}
              unit={settings.unit}
            />
          )}
          {figure && !quick.cautionsRead && <Safety state={state} />}
          {figure && quick.cautionsRead && (
            <LeafPicker
              key={kind}
              name="quick"
              valve={KINDS[kind].toLowerCase()}
              leaves={settings.gauge.leaves.map(asText)}
              unit={settings.unit}
              felt={felt}
              change={(felt) => changeQuick({ felt })}
              place="/reading"
              problems={problems}
              next={nextLeaf(valve?.judged ?? [])}
            />
          )}
          <Doubts quick={quick} />
          {figure && quick.cautionsRead && <Safety state={state} />}
          {figure && shimmed && (
            <Line
              sheet={{
                document: { reading: { shim: quick.shim } },
                problems,
                write: (_, value) => changeQuick({ shim: asText(value) }),
              }}
              at="/reading/shim"
              label="Shim fitted there"
              unit="mm"
              hint="As marked; without it no new shim can be named."
            />
          )}
          {(!quick.cold || warmthActs(base.document)) && <Warmth sheet={base} unit={settings.warmth} />}
        </div>
        <section class="outcome" id="answer" aria-label="Answer">
          <p class="sr" role="status">
            {!asking && valve?.judged.map(aloud).join("; ")}
          </p>
          <Problems problems={beside ? problems : []} document={base.document} />
          {asking && <NothingGoes valve={`the ${kind} valve`} sure={() => setSure(true)} />}
          {valve && !asking && (
            <AnswerCard valve={valve} shown={settings.unit} assumptions={answer.assumptions} />
          )}
          {!valve && (
            <Hint
              state={state}
              started={started && !answer.waits}
              problems={problems.length > 0}
              needed={needed.length > 0}
            />
          )}
        </section>
      </div>
      <Against state={state} faulty={beside || answer.waits} />
      <p>
        <a class="button" href="#figures">
          {FIGURES}
        </a>
      </p>
      {figure && quick.cautionsRead && (
        <Peek
          name={`the ${kind} valve`}
          echo={echo(felt)}
          judged={asking || !valve ? [] : valve.judged}
          hint={asking ? "Turn nothing yet: is it closed?" : hintOf(quick, needed.length > 0, answer.waits)}
          demo={quick.demo}
          answer="answer"
        >
          {progressOf(felt) !== "none" && (
            <button
              type="button"
              class="main"
              onClick={() => changeQuick({ felt: untouched(settings.spread), shim: "", valve: "" })}
            >
              Another valve
            </button>
          )}
        </Peek>
      )}
    </div>
  );
}

/** What this view is called. */
export const VIEW = "One valve";

/** Which valve is tried, and that it is closed; with it that the engine is cold, unless its warmth is typed. */
function Closed({ quick, pick }: { quick: Quick; pick: (valve: "intake" | "exhaust") => void }) {
  const typed = !quick.cold || warmthActs(quick.base.clearance);
  return (
    <Chips
      legend={typed ? "This valve is closed:" : "Engine stone cold, this valve closed:"}
      name="quick.valve"
      value={quick.valve}
      choices={Object.entries(KINDS) as ["intake" | "exhaust", string][]}
      pick={pick}
      wide
      again
    />
  );
}

/** For whoever cannot say that. */
function Doubts({ quick }: { quick: Quick }) {
  const [unsure, setUnsure] = useState(false);
  const turn = () =>
    changeQuick({
      cold: !quick.cold,
      ...(!quick.cold && { base: put(quick.base, `${CLEARANCE}/metal`, undefined) }),
    });
  return (
    <>
      <div class="row unsure">
        <button type="button" class="quiet" aria-expanded={unsure} onClick={() => setUnsure(!unsure)}>
          Not sure it is closed
        </button>
        {!warmthActs(quick.base.clearance) && (
          <button type="button" class="quiet" aria-pressed={!quick.cold} onClick={turn}>
            {quick.cold ? "It is not cold" : "It is stone cold"}
          </button>
        )}
      </div>
      {unsure && (
        <p class="notice">
          Turn the crank forward to where the cylinder fires: both its rockers are slack by hand, and the
          rockers of the cylinder that runs level with it are both just moving. If a rocker is tight, go on
          one whole turn.
        </p>
      )}
    </>
  );
}

/** The cautions, to be read once before the first leaf and at hand afterwards. */
function Safety({ state }: { state: State }) {
  const { quick, settings } = state;
  const cautions = cautionsOf(quick, settings);
  if (cautions.length === 0) {
    return <p class="empty">{checked(quick, settings).waits ? LOADING : `${NEEDS_BAND}.`}</p>;
  }
  const list = <Lines lines={cautions} />;
  if (quick.cautionsRead) {
    return (
      <details class="small cautions">
        <summary>Cautions</summary>
        {list}
      </details>
    );
  }
  return (
    <section class="cautions notice" aria-label="Cautions">
      {list}
      <button type="button" class="main" onClick={() => changeQuick({ cautionsRead: true })}>
        I have read this and made the engine safe
      </button>
    </section>
  );
}

/** The answers of all books side by side; what was felt is the same in each. */
function valveOf({ valve }: Quick, { found }: Checked) {
  const first = found[0]?.report;
  if (!first || !valve) return undefined;
  return {
    name: KINDS[valve],
    felt_low: first.felt_low,
    felt_high: first.felt_high,
    judged: found.map(({ book, report }) => ({ ...report.judged, specification: book })),
  };
}

/** An answer for those who hear it; which book it is by, where there are several. */
function aloud({ verdict, advice, specification }: JudgedReport, _: number, { length }: { length: number }) {
  const by = length > 1 ? `by ${specification} ` : "";
  return `${by}${VERDICTS[verdict].word.toLowerCase()}: ${advice.text}`;
}

/** Which book it is held against; the form, and with it what answers whole jobs, is loaded when it is opened,
 * when a fault may be in it, or when the answer takes it. */
function Against({ state, faulty }: { state: State; faulty: boolean }) {
  const [opened, setOpened] = useState(false);
  return (
    <details class="against-what" onToggle={(event) => event.currentTarget.open && setOpened(true)}>
      <summary>
        <span>
          Book and adjuster: <strong>{asText(state.quick.base.title) || "my own figures"}</strong>{" "}
          {state.quick.demo && <Demo />}
        </span>
      </summary>
      {(opened || faulty) && <Later part="against" state={state} />}
    </details>
  );
}

const NEEDS_BAND = "Still needed: what the book allows, min and max";

const LOADING = "Loading what computes the answer …";

/** What the bar says while there is no answer. */
function hintOf({ felt, cold, base }: Quick, needed: boolean, waits: boolean): string {
  if (waits) return LOADING;
  if (!cold && !at(base.clearance, "/metal/temperature/is")) return "Let it cool, or type its temperature";
  if (needed && progressOf(felt) !== "none") return NEEDS_BAND;
  return progressOf(felt) === "none"
    ? "Tap the thickest leaf that goes in"
    : "Tap the thinnest that does not";
}

interface HintProps {
  state: State;
  started: boolean;
  problems: boolean;
  needed: boolean;
}

function Hint({ state, started, problems, needed }: HintProps) {
  const { quick } = state;
  const say = (words: string) => <p class="empty">{words}</p>;
  if (!started) return say(LOADING);
  if (quick.base.clearance.specifications.length === 0)
    return say("No book is for this engine serial number, so nothing can be judged.");
  if (problems) return say("The answer comes when what is marked is put right.");
  const felt = bare(echo(quick.felt));
  if (!quick.valve)
    return say(
      felt ? `Felt: ${felt}. Which valve was it, and was it closed?` : "First say which valve is closed.",
    );
  if (needed && felt) return say(`${NEEDS_BAND}. Felt: ${felt}.`);
  return null;
}
