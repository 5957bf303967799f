// One valve, at once: tap what goes, tap what does not, read what to do.

import { AnswerCard, Sign } from "./answer";
import { asText, at, put } from "./draft";
import { Chips, Line, problemsAt, type Sheet } from "./field";
import { toReading } from "./felt";
import { answer, type Document } from "./kernel";
import { LeafPicker } from "./leaves";
import { LimitsForm, ScrewForm } from "./limits-form";
import { fresh, PRESETS } from "./presets";
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

export function QuickView({ state }: { state: State }) {
  const { quick, settings } = state;
  const document = quickDocument(quick, settings);
  const { report, problems } = answer(document);
  const valve = report?.valves[0];
  const first = valve?.judged[0];
  const base: Sheet = {
    document: quick.base,
    problems,
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
            <AnswerCard valve={valve} shown={settings.unit} />
          ) : (
            <Hint problems={problems.length > 0} />
          )}
        </section>
      </div>
      <AgainstWhat state={state} sheet={base} />
      {valve && first && (
        <button
          type="button"
          class="peek"
          onClick={() => window.document.getElementById("answer")?.scrollIntoView({ block: "start" })}
        >
          <Sign verdict={first.verdict} />
          <span>{first.advice.text}</span>
        </button>
      )}
    </div>
  );
}

function Hint({ problems }: { problems: boolean }) {
  if (problems) return <p class="empty">The answer comes when what is marked is put right.</p>;
  return (
    <p class="empty">
      Tap the thickest leaf that goes in and the thinnest that does not. The answer comes here.
    </p>
  );
}

/** Engine, band and screw that are remembered between checks. */
function AgainstWhat({ state, sheet }: { state: State; sheet: Sheet }) {
  const { quick, job, settings } = state;
  const choices = PRESETS.map((preset) => [preset.id, fresh(preset)] as const);
  const take = (id: string) => {
    const found = id === "job" ? job?.document : choices.find(([known]) => known === id)?.[1];
    if (found) changeQuick({ base: found, shim: "" });
  };
  return (
    <details class="against-what">
      <summary>
        Checked against: <strong>{asText(quick.base.title) || "untitled"}</strong>
      </summary>
      <div class="field">
        <label for="quick.base">Take engine, bands and screw from</label>
        <select id="quick.base" value="" onChange={(event) => take(event.currentTarget.value)}>
          <option value="">choose …</option>
          {job && <option value="job">the job that is open: {asText(job.document.title)}</option>}
          {choices.map(([id, document]) => (
            <option key={id} value={id}>
              {document.title}
            </option>
          ))}
        </select>
      </div>
      {(quick.base.specifications ?? []).map((_, i) => (
        <LimitsForm key={i} sheet={sheet} place={`/specifications/${i}`} unit={settings.unit} />
      ))}
      <ScrewForm sheet={sheet} />
    </details>
  );
}
