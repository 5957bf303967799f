// One valve, at once: tap what goes, tap what does not, read what to do.

import { AnswerCard, Peek } from "./answer";
import { asText, at, put } from "./draft";
import { Chips, Line, problemsAt, type Sheet } from "./field";
import { Later } from "./later";
import { toReading } from "./felt";
import { answer, type Document, type Report } from "./kernel";
import { LeafPicker } from "./leaves";
import { Problems } from "./problems";
import { changeQuick, type Quick, type Settings, type State } from "./state";
import { Warmth } from "./warmth";
import { KINDS } from "./words";

/** Documents are made once for what they are made of, so that the kernel is asked once. */
const made = new WeakMap<Quick, Document>();

/** One cylinder of an engine: a quick check needs no way round the others. */
function oneCylinder({ engine, valves, metal, ...rest }: Document): Document {
  const label = asText(at(engine, "/cylinders/0/label"));
  const { cycle, number, numbering, rotation } = engine;
  const { rocker_ratio, screw, shim } = valves;
  const { cooling: _cooling, curve: _curve, ...warmth } = metal ?? {};
  return {
    lashwork: rest.lashwork,
    title: rest.title,
    specifications: rest.specifications,
    gauge: rest.gauge,
    readings: [],
    engine: {
      cycle,
      number,
      numbering,
      rotation,
      cylinders: [{ label }],
      firing_order: [label],
      firing: "even",
    },
    valves: { intake_per_cylinder: 1, exhaust_per_cylinder: 1, rocker_ratio, screw, shim },
    ...(metal && { metal: warmth }),
  };
}

/** The quick check as a document with one reading. */
export function quickDocument(quick: Quick, { rule, gauge }: Settings): Document {
  const known = made.get(quick);
  if (known && known.rule === rule && known.gauge === gauge) return known;
  const { base, valve, felt, shim } = quick;
  const reading = toReading(felt);
  const whole: Document = {
    ...oneCylinder(base),
    rule,
    gauge,
    readings: reading
      ? [
          {
            cylinder: asText(at(base, "/engine/cylinders/0/label")),
            valve,
            ...reading,
            ...(shim && { shim }),
          },
        ]
      : [],
  };
  made.set(quick, whole);
  return whole;
}

export function QuickView({ state, started }: { state: State; started: boolean }) {
  const { quick, settings } = state;
  const document = quickDocument(quick, settings);
  const { report, problems } = answer(document);
  const valve = report?.valves[0];
  const first = valve?.judged[0];
  const base: Sheet = {
    document: quick.base,
    problems,
    assumptions: report?.assumptions,
    write: (pointer, value) => changeQuick({ base: put(quick.base, pointer, value) }),
  };
  const shimmed = at(quick.base, "/valves/shim") !== undefined;
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
            place="/readings/0"
            problems={problems}
          />
          {shimmed && (
            <Line
              sheet={{
                document: { shim: quick.shim },
                problems,
                write: (_, value) => changeQuick({ shim: asText(value) }),
              }}
              at="/shim"
              label="Shim fitted there"
              unit="mm"
              hint="As marked; without it no new shim can be named."
            />
          )}
          <Warmth sheet={base} unit={settings.warmth} />
        </div>
        <section class="outcome" id="answer" aria-label="Answer">
          <p class="sr" role="status">
            {first ? `${first.verdict.replace("_", " ")}: ${first.advice.text}` : ""}
          </p>
          <Problems problems={problemsAt(problems, "/readings").length < problems.length ? problems : []} />
          {valve ? (
            <AnswerCard valve={valve} shown={settings.unit} assumptions={report && aboutValve(report)} />
          ) : (
            <Hint started={started} problems={problems.length > 0} />
          )}
        </section>
      </div>
      <details class="against-what">
        <summary>
          Checked against: <strong>{asText(quick.base.title) || "untitled"}</strong>
        </summary>
        {started && <Later part="against" state={state} />}
      </details>
      {valve && first && <Peek judged={first} answer="answer" />}
    </div>
  );
}

/** What was assumed of the reading; one valve needs nothing of the way round an engine. */
const aboutValve = ({ assumptions }: Report) =>
  assumptions.filter(({ code }) => !/^(?:engine|valve)\./.test(code));

function Hint({ started, problems }: { started: boolean; problems: boolean }) {
  if (!started) return <p class="empty">Loading what computes the answer …</p>;
  if (problems) return <p class="empty">The answer comes when what is marked is put right.</p>;
  return (
    <p class="empty">
      Tap the thickest leaf that goes in and the thinnest that does not. The answer comes here.
    </p>
  );
}
