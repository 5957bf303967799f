// At the engine: stop by stop, valve by valve.

import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { AnswerCard, Peek, Signs } from "./answer";
import { Dial } from "./dial";
import { asText } from "./draft";
import { Line, problemsAt } from "./field";
import { fromReading, toReading } from "./felt";
import type { StageProps } from "./job";
import type { CheckReport, ClearanceReport, Report, StopReport } from "./kernel";
import { LeafPicker } from "./leaves";
import { Problems } from "./problems";
import { judgedOf, readingIndex, same, withFelt } from "./progress";
import { moveJob, writeJob } from "./state";
import { Warmth } from "./warmth";
import { degrees, METHODS, sentence } from "./words";

export function Turn(props: StageProps) {
  const { job, answer, clearance, state } = props;
  const report = answer.report;
  const { plans, recommended } = report?.clearance ?? { plans: [], recommended: null };
  const advised = recommended?.plan ?? 0;
  const chosen = plans[job.plan] ? job.plan : advised;
  const plan = plans[chosen];
  const at = Math.min(job.stop, (plan?.stops.length ?? 1) - 1);
  const title = useArrival(`${chosen}.${at}`);
  if (!report || !plan) return null;
  const stop = plan.stops[at];
  if (!stop) return <p>There is no stop at which a valve can be read.</p>;
  const isRead = (valve: CheckReport) => readingIndex(job.document, valve) >= 0;
  const done = plan.stops.map((one) => one.check.every(isRead));
  const all = plan.stops.flatMap((one) => one.check);
  return (
    <>
      <Plans report={report.clearance} chosen={chosen} />
      <div class="row progress">
        <label for="job.progress">
          {all.filter(isRead).length} of {all.length} valves read
        </label>
        <progress id="job.progress" max={all.length} value={all.filter(isRead).length} />
      </div>
      <div class="columns turn">
        <div>
          <Dial report={report} plan={plan} stop={at} done={done} />
          <Here stop={stop} at={at} />
          <Then next={plan.stops[at + 1]} at={at} />
          <details class="small">
            <summary>Warmth of the metal</summary>
            <Warmth sheet={clearance} unit={state.settings.warmth} />
          </details>
        </div>
        <section aria-label={`Valves at stop ${at + 1}`}>
          <h2 ref={title} tabIndex={-1}>
            Free at stop {at + 1}
          </h2>
          <Problems problems={answer.problems} />
          <Valves key={`${chosen}.${at}`} {...props} report={report} checks={stop.check} isRead={isRead} />
          <Steps at={at} stops={plan.stops} complete={done[at] ?? false} />
          {plan.unreachable_why.map(({ valve, text }) => (
            <p class="notice" key={valve}>
              {sentence(`${valve} is not reached on this way: ${text}`)}
            </p>
          ))}
        </section>
      </div>
    </>
  );
}

/** Takes eyes and keys to the heading whenever the crank has moved. */
function useArrival(stop: string) {
  const title = useRef<HTMLHeadingElement>(null);
  const before = useRef(stop);
  // At once, as at a new stage.
  useLayoutEffect(() => {
    if (before.current === stop) return;
    before.current = stop;
    title.current?.focus({ preventScroll: true });
    document.querySelector(".dial")?.scrollIntoView({ block: "start" });
  }, [stop]);
  return title;
}

function Plans({ report, chosen }: { report: ClearanceReport; chosen: number }) {
  if (report.plans.length < 2) return null;
  const advised = report.recommended;
  return (
    <div class="field">
      <label for="job.plan">Way round the engine</label>
      <select
        id="job.plan"
        value={chosen}
        onChange={(event) => moveJob({ plan: Number(event.currentTarget.value), stop: 0 })}
      >
        {report.plans.map((plan, i) => (
          <option key={plan.method} value={i}>
            {METHODS[plan.method] ?? plan.method.replaceAll("_", " ")}: {plan.stops.length} stops,{" "}
            {degrees(plan.total_turn.deg)} of turning{i === advised?.plan ? " (advised)" : ""}
          </option>
        ))}
      </select>
      {advised && <p class="hint">{sentence(`Advised: ${advised.why}`)}</p>}
    </div>
  );
}

/** Where the crank stands. */
function Here({ stop, at }: { stop: StopReport; at: number }) {
  const { cylinder, turn } = stop.last_fired;
  const place = stop.firing_tdc
    ? `firing TDC of ${stop.firing_tdc}`
    : `${degrees(turn.deg)} after firing TDC of ${cylinder}`;
  return (
    <p role="status">
      {at === 0 && (stop.turn.deg > 0 ? `Turn the crank ${degrees(stop.turn.deg)} on to start: ` : "Start: ")}
      {place}
      {stop.mark && `; mark ${stop.mark} at the pointer`}
      {stop.watch.length > 0 && `; watch: ${stop.watch.map((w) => w.text).join(", ")}`}
      {stop.pulley_mark_mm != null && `; rim mark ${stop.pulley_mark_mm.toFixed(0)} mm behind the TDC mark, against the running direction`}
      {`; rotor ${degrees(stop.rotor.deg)}`}.
    </p>
  );
}

/** Where the crank goes afterwards, and what is free there. */
function Then({ next, at }: { next: StopReport | undefined; at: number }) {
  if (!next) return null;
  const free = next.check.map(({ valve }) => valve.replace(/^cylinder /, "")).join(", ");
  return (
    <p class="hint">
      Then {degrees(next.turn.deg)} on to stop {at + 2}, where these are free: {free}.
    </p>
  );
}

interface StepsProps {
  at: number;
  stops: readonly StopReport[];
  complete: boolean;
}

/** What to do next with the crank: always on, never back. */
function Steps({ at, stops, complete }: StepsProps) {
  const next = stops[at + 1];
  return (
    <div class="steps">
      {next ? (
        <button type="button" class={complete ? "main" : ""} onClick={() => moveJob({ stop: at + 1 })}>
          Turn the crank {degrees(next.turn.deg)} on, to stop {at + 2}
        </button>
      ) : (
        <button type="button" class={complete ? "main" : ""} onClick={() => moveJob({ stage: "report" })}>
          All stops done: report
        </button>
      )}
      <button type="button" class="quiet" disabled={at === 0} onClick={() => moveJob({ stop: at - 1 })}>
        Look at the stop before
      </button>
    </div>
  );
}

interface ValvesProps extends StageProps {
  report: Report;
  checks: readonly CheckReport[];
  isRead: (valve: CheckReport) => boolean;
}

/** The valves of a stop, one of them open. */
function Valves({ state, job, clearance, report, checks, isRead }: ValvesProps) {
  const [open, setOpen] = useState<CheckReport | undefined>(() => checks.find((valve) => !isRead(valve)));
  const after = open && checks.find((valve) => !same(valve, open) && !isRead(valve));
  const list = useRef<HTMLUListElement>(null);
  const goOn = (valve: CheckReport) => {
    setOpen(valve);
    const head = list.current?.querySelectorAll<HTMLElement>(".valve-head")[checks.indexOf(valve)];
    head?.focus({ preventScroll: true });
    // The body that was open above is gone by the next frame only.
    requestAnimationFrame(() => head?.scrollIntoView({ block: "start" }));
  };
  return (
    <ul class="valves" ref={list}>
      {checks.map((valve) => {
        const judged = judgedOf(report, valve);
        const index = readingIndex(job.document, valve);
        const reading = job.document.clearance.readings[index];
        const place = `/readings/${index}`;
        const wrong = problemsAt(clearance.problems, place).length > 0;
        const isOpen = open !== undefined && same(open, valve);
        const name = `valve.${valve.cylinder}.${valve.kind}.${valve.number}`;
        return (
          <li key={name}>
            <button
              type="button"
              class="valve-head"
              aria-expanded={isOpen}
              onClick={() => setOpen(isOpen ? undefined : valve)}
            >
              <span>{valve.valve.replace(/^c/, "C")}</span>
              <span class="state">
                {wrong ? "look at this" : judged ? <Signs judged={judged.judged} /> : "not read"}
              </span>
            </button>
            {isOpen && (
              <div class="valve-body">
                <LeafPicker
                  name={name}
                  leaves={job.document.clearance.gauge.leaves.map(asText)}
                  unit={state.settings.unit}
                  felt={fromReading(reading, state.settings.spread)}
                  change={(felt) => writeJob(withFelt(job.document, valve, toReading(felt)))}
                  place={place}
                  problems={clearance.problems}
                />
                {job.document.clearance.valves.shim && index >= 0 && (
                  <Line sheet={clearance} at={`${place}/shim`} label="Shim fitted there" unit="mm" />
                )}
                <div role="status" id="valve.answer">
                  {judged && <AnswerCard valve={judged} shown={state.settings.unit} />}
                </div>
                {after && index >= 0 && !wrong && <Next after={after} goOn={goOn} />}
                {judged && judged.judged.length > 0 && (
                  <Peek judged={judged.judged} answer="valve.answer">
                    {after && !wrong && <Next after={after} goOn={goOn} />}
                  </Peek>
                )}
              </div>
            )}
          </li>
        );
      })}
    </ul>
  );
}

function Next({ after, goOn }: { after: CheckReport; goOn: (valve: CheckReport) => void }) {
  return (
    <button type="button" class="main" onClick={() => goOn(after)}>
      Next: {after.valve.replace(/^cylinder /, "")}
    </button>
  );
}
