// One valve, at once: tap what goes, tap what does not, read what to do.

import { useEffect, useState } from "preact/hooks";
import { AnswerCard, Peek } from "./answer";
import { checked, type Checked } from "./check";
import { asText, at, CLEARANCE, put } from "./draft";
import { Chips, Line, problemsAt, type Sheet } from "./field";
import type { JudgedReport } from "./kernel";
import { Later } from "./later";
import { LeafPicker } from "./leaves";
import { Problems } from "./problems";
import { bringRest } from "./rest";
import { changeQuick, type Quick, type State } from "./state";
import { Warmth } from "./warmth";
import { KINDS, VERDICTS } from "./words";

export function QuickView({ state, started }: { state: State; started: boolean }) {
  const { quick, settings } = state;
  const answer = checked(quick, settings);
  const { problems, assumptions } = answer;
  const valve = valveOf(quick, answer);
  const answered = valve !== undefined;
  useEffect(() => {
    if (answered) bringRest();
  }, [answered]);
  const base: Sheet = {
    document: quick.base.clearance,
    problems,
    assumptions,
    write: (pointer, value) => changeQuick({ base: put(quick.base, CLEARANCE + pointer, value) }),
  };
  /** Whether something is wrong that does not stand at the reading. */
  const beside = problemsAt(problems, "/reading").length < problems.length;
  const shimmed = at(base.document, "/valves/shim") !== undefined;
  return (
    <div class="view quick">
      <h1>Quick check</h1>
      <div class="columns">
        <div class="inputs">
          <Chips
            legend="Valve"
            name="quick.valve"
            value={quick.valve}
            choices={Object.entries(KINDS) as ["intake" | "exhaust", string][]}
            pick={(valve) => changeQuick({ valve })}
            wide
          />
          <LeafPicker
            name="quick"
            leaves={settings.gauge.leaves.map(asText)}
            unit={settings.unit}
            felt={quick.felt}
            change={(felt) => changeQuick({ felt })}
            place="/reading"
            problems={problems}
          />
          {shimmed && (
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
          <Warmth sheet={base} unit={settings.warmth} />
        </div>
        <section class="outcome" id="answer" aria-label="Answer">
          <p class="sr" role="status">
            {valve?.judged.map(aloud).join("; ")}
          </p>
          <Problems problems={beside ? problems : []} />
          {valve ? (
            <AnswerCard valve={valve} shown={settings.unit} assumptions={assumptions} />
          ) : (
            <Hint
              started={started}
              problems={problems.length > 0}
              books={quick.base.clearance.specifications.length}
            />
          )}
        </section>
      </div>
      <Against state={state} faulty={beside} />
      {valve && <Peek judged={valve.judged} answer="answer" />}
    </div>
  );
}

/** The answers of all books side by side; what was felt is the same in each. */
function valveOf({ valve }: Quick, { found }: Checked) {
  const first = found[0]?.report;
  return (
    first && {
      name: KINDS[valve],
      felt_low: first.felt_low,
      felt_high: first.felt_high,
      judged: found.map(({ book, report }) => ({ ...report.judged, specification: book })),
    }
  );
}

/** An answer for those who hear it; which book it is by, where there are several. */
function aloud({ verdict, advice, specification }: JudgedReport, _: number, { length }: { length: number }) {
  const by = length > 1 ? `by ${specification} ` : "";
  return `${by}${VERDICTS[verdict].word.toLowerCase()}: ${advice.text}`;
}

/** What it is held against; the form is loaded when it is opened, or when a fault may be in it. */
function Against({ state, faulty }: { state: State; faulty: boolean }) {
  const [opened, setOpened] = useState(false);
  return (
    <details class="against-what" onToggle={(event) => event.currentTarget.open && setOpened(true)}>
      <summary>
        Checked against: <strong>{asText(state.quick.base.title) || "untitled"}</strong>
      </summary>
      {(opened || faulty) && <Later part="against" state={state} />}
    </details>
  );
}

function Hint({ started, problems, books }: { started: boolean; problems: boolean; books: number }) {
  if (!started) return <p class="empty">Loading what computes the answer …</p>;
  if (books === 0) return <p class="empty">No book is for this engine number, so nothing can be judged.</p>;
  if (problems) return <p class="empty">The answer comes when what is marked is put right.</p>;
  return (
    <p class="empty">
      Tap the thickest leaf that goes in and the thinnest that does not. The answer comes here.
    </p>
  );
}
