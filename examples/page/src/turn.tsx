// At the engine, a stop on one screen: where the crank stands, its valves, the leaves; the next step in the bar.

import { Lines } from "./lines";
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { AnswerCard, asksIfClosed, NothingGoes, Peek } from "./answer";
import { nextLeaf } from "./besides";
import { Dial } from "./dial";
import { asText } from "./draft";
import { Line, problemsAt } from "./field";
import { bare, echo, fromReading, toReading, type Felt } from "./felt";
import { Head } from "./head";
import type { StageProps } from "./job";
import type { CheckReport, ClearanceReport, PlanReport, Report, StopReport, StopWorkReport } from "./kernel";
import { LeafPicker } from "./leaves";
import { Problems } from "./problems";
import { judgedOf, keyOf, readingIndex, readSoFar, withFelt, withLeft } from "./progress";
import { moveJob, writeJob } from "./state";
import { Warmth } from "./warmth";
import { count, degrees, methodName, sentence, short } from "./words";

export function Turn(props: StageProps) {
  const { job, answer, clearance, state } = props;
  const report = answer.report;
  const { plans, recommended } = report?.clearance ?? { plans: [], recommended: null };
  const advised = recommended?.plan ?? 0;
  const chosen = plans[job.plan] ? job.plan : advised;
  const plan = plans[chosen];
  const at = Math.min(job.stop, (plan?.stops.length ?? 1) - 1);
  const top = useArrival(`${chosen}.${at}`);
  if (!report || !plan) return null;
  const stop = plan.stops[at];
  if (!stop) return <p>There is no stop at which a valve can be read.</p>;
  const isRead = (valve: CheckReport) => readSoFar(job.document, report, valve) === "both";
  const done = plan.stops.map((one) => one.check.every(isRead));
  const all = plan.stops.flatMap((one) => one.check);
  const findings = report.clearance.stop_work;
  return (
    <>
      <div
        class="turn"
        ref={top}
        tabIndex={-1}
        aria-label={`Stop ${at + 1} of ${plan.stops.length}`}
        role="group"
      >
        <div class="where">
          <Dial report={report} plan={plan} stop={at} done={done} small />
          <div>
            <h2>
              Stop {at + 1} of {plan.stops.length}
            </h2>
            <Here stop={stop} at={at} />
          </div>
        </div>
        <Findings findings={findings} />
        <Valves
          key={`${chosen}.${at}`}
          {...props}
          report={report}
          plan={plan}
          stop={stop}
          unseen={findings.filter((one) => !job.seen.includes(nameOfFinding(one)))}
          onward={<Onward at={at} stops={plan.stops} complete={done[at] ?? false} />}
          isRead={isRead}
        />
      </div>
      <Problems problems={answer.problems} document={job.document} />
      <p class="progress">
        {all.filter(isRead).length} of {count(all.length, "valve")} read
      </p>
      {plan.unreachable_why.map(({ valve, text }) => (
        <p class="notice" key={valve}>
          {sentence(`${valve} is not reached on this way: ${text}`)}
        </p>
      ))}
      <Steps at={at} stops={plan.stops} />
      <details>
        <summary>Crank, order of work, temperature</summary>
        <Plans report={report.clearance} chosen={chosen} />
        <Dial report={report} plan={plan} stop={at} done={done} />
        <More stop={stop} marks={report.clearance.pulley_marks} />
        <Warmth sheet={clearance} unit={state.settings.warmth} />
      </details>
    </>
  );
}

/** Takes eyes and keys to the stop on arrival, and whenever the crank has moved. */
function useArrival(stop: string) {
  const top = useRef<HTMLDivElement>(null);
  const before = useRef("");
  // At once, as at a new stage.
  useLayoutEffect(() => {
    if (before.current === stop) return;
    before.current = stop;
    top.current?.focus({ preventScroll: true });
    top.current?.scrollIntoView({ block: "start", behavior: "instant" });
  }, [stop]);
  return top;
}

/** What has to be settled before anything is set. */
function Findings({ findings }: { findings: readonly StopWorkReport[] }) {
  if (findings.length === 0) return null;
  return (
    <section
      class="problems findings"
      id="findings"
      role="alert"
      tabIndex={-1}
      aria-label="Settle this first"
    >
      <p>
        <strong>Settle first, before anything is set:</strong>
      </p>
      <Lines lines={findings} />
    </section>
  );
}

function Plans({ report, chosen }: { report: ClearanceReport; chosen: number }) {
  if (report.plans.length < 2) return null;
  const advised = report.recommended;
  const cost = (plan: PlanReport) => `${count(plan.stops.length, "stop")}, ${degrees(plan.total_turn.deg)}`;
  return (
    <div class="field">
      <label for="job.plan">Order of work</label>
      <select
        id="job.plan"
        value={chosen}
        onChange={(event) => moveJob({ plan: Number(event.currentTarget.value), stop: 0, open: "" })}
      >
        {report.plans.map((plan, i) => (
          <option key={plan.method} value={i}>
            {i === advised?.plan ? "Advised: " : ""}
            {methodName(plan.method)}, {cost(plan)}
          </option>
        ))}
      </select>
      <p class="hint">{sentence(advised ? `Advised: ${advised.why}` : (report.none_recommended ?? ""))}</p>
    </div>
  );
}

/** Where the crank stands, and by what one sees that it does. */
function Here({ stop, at }: { stop: StopReport; at: number }) {
  const { cylinder, turn } = stop.last_fired;
  const place = stop.firing_tdc
    ? `TDC no. ${stop.firing_tdc}: both its valves shut`
    : `${degrees(turn.deg)} after firing TDC no. ${cylinder}`;
  return (
    <p role="status">
      {at === 0 && stop.turn.deg > 0 && `Turn ${degrees(stop.turn.deg)} on to start. `}
      <strong>{place}</strong>
      {stop.overlap_tdc && `; no. ${stop.overlap_tdc} rocks`}
      {stop.mark && `; mark ${stop.mark} at the pointer`}
      {stop.watch.length > 0 && `; ${stop.watch.map(({ text }) => text).join("; ")}`}.
    </p>
  );
}

/** What only some have: a marked pulley, a distributor. */
function More({ stop, marks }: { stop: StopReport; marks: string | null }) {
  return (
    <p class="hint">
      {stop.may_be_off &&
        `The crank may stand ${degrees(stop.may_be_off.before.deg)} before this stop to ${degrees(stop.may_be_off.after.deg)} after it. `}
      {stop.pulley_mark_mm != null &&
        `Pulley ${stop.pulley_mark_mm.toFixed(0)} mm from its TDC mark; ${marks ?? ""} `}
      Rotor arm {degrees(stop.rotor.deg)} on from the lead of the first to fire.
    </p>
  );
}

interface StepsProps {
  at: number;
  stops: readonly StopReport[];
}

const goTo = (stop: number) => moveJob({ stop, open: "" });

/** The crank's next step, for the bar: always on, never back. */
function Onward({ at, stops, complete }: StepsProps & { complete: boolean }) {
  const next = stops[at + 1];
  if (!complete) return null;
  return next ? (
    <button type="button" class="main" onClick={() => goTo(at + 1)}>
      Turn {degrees(next.turn.deg)} to stop {at + 2}
    </button>
  ) : (
    <button type="button" class="main" onClick={() => moveJob({ stage: "report" })}>
      Report
    </button>
  );
}

/** The same for whoever leaves a valve out, and a look at the stop before. */
function Steps({ at, stops }: StepsProps) {
  const next = stops[at + 1];
  return (
    <div class="row steps">
      {at > 0 && (
        <button type="button" class="quiet" onClick={() => goTo(at - 1)}>
          Crank stands at stop {at}
        </button>
      )}
      {next ? (
        <button type="button" class="quiet" onClick={() => goTo(at + 1)}>
          Turned {degrees(next.turn.deg)} on, to stop {at + 2}
        </button>
      ) : (
        <button type="button" class="quiet" onClick={() => moveJob({ stage: "report" })}>
          To the report
        </button>
      )}
    </div>
  );
}

interface ValvesProps extends StageProps {
  report: Report;
  plan: PlanReport;
  stop: StopReport;
  /** Joint findings that were not read yet. */
  unseen: readonly StopWorkReport[];
  onward: preact.ComponentChildren;
  isRead: (valve: CheckReport) => boolean;
}

/** The valves of a stop, and the one that is being read. */
function Valves(props: ValvesProps) {
  const { job, report, plan, stop, isRead } = props;
  const checks = stop.check;
  const open =
    checks.find((one) => keyOf(one) === job.open) ?? checks.find((one) => !isRead(one)) ?? checks[0];
  if (!open) return null;
  const next = checks.find((one) => one !== open && !isRead(one));
  return (
    <>
      <Head
        document={job.document}
        report={report}
        plan={plan}
        checks={checks}
        open={open}
        next={isRead(open) ? next : undefined}
        figure={({ kind }) => figuresOf(props, kind)}
      />
      <OneValve key={keyOf(open)} {...props} valve={open} />
    </>
  );
}

/** A valve as it is called on a button. */
const nameOf = (valve: CheckReport): string =>
  short(valve.valve).replace("intake", "in").replace("exhaust", "ex");

/** What the books of this engine print for a kind of valve. */
function figuresOf({ job, report }: ValvesProps, kind: "intake" | "exhaust"): string {
  const others = report.clearance.specifications.filter((one) => one.applicability === "does_not_apply");
  const books = job.document.clearance.specifications.filter(
    (book) => !others.some(({ id }) => id === book.id),
  );
  const figures = books.map((book) => bare(asText(book[kind]?.set_to ?? book[kind]?.set?.from)));
  return [...new Set(figures)].filter(Boolean).join(" / ");
}

/** One valve: its leaves, the answer, and what comes next. */
function OneValve(props: ValvesProps & { valve: CheckReport }) {
  const { state, job, clearance, report, stop, valve, unseen, onward, isRead } = props;
  const index = readingIndex(job.document, valve);
  const taken = job.document.clearance.readings?.[index];
  const [setting, setSetting] = useState(taken?.left != null);
  const [sure, setSure] = useState(false);
  const { unit, spread } = state.settings;
  const name = short(valve.valve);
  const key = keyOf(valve);
  const found = judgedOf(report, valve);
  const judged = setting ? found?.left && { ...found.left, name: found.name } : found;
  const reading = setting ? taken?.left : taken;
  const felt = fromReading(reading ?? undefined, spread);
  const change = (felt: Felt) => {
    const what = `${name}${setting ? " as left" : ""}, ${echo(felt) || "cleared"}`;
    writeJob((setting ? withLeft : withFelt)(job.document, valve, toReading(felt)), what, { open: key });
  };
  const place = `/readings/${index}${setting ? "/left" : ""}`;
  const others = setting ? [] : problemsAt(clearance.problems, `${place}/left`);
  const problems = clearance.problems.filter((one) => !others.includes(one));
  const wrong = problemsAt(problems, place).length > 0;
  const checks = stop.check;
  const after = [...checks.slice(checks.indexOf(valve) + 1), ...checks].find(
    (one) => one !== valve && !isRead(one),
  );
  const read = isRead(valve) && !wrong;
  const asking = judged != null && asksIfClosed(felt, judged.judged) && !sure;
  const resets = judged?.judged.some(({ advice }) => advice.action === "reset") ?? false;
  return (
    <div class="valve-body">
      <LeafPicker
        key={`${key}.${setting}`}
        name={`valve.${key}`}
        valve={setting ? `${name}, as left` : name}
        leaves={job.document.clearance.gauge.leaves.map(asText)}
        unit={unit}
        felt={felt}
        change={change}
        place={place}
        problems={problems}
        next={nextLeaf(judged?.judged ?? [])}
      />
      {job.document.clearance.valves.shim && reading && (
        <Line sheet={clearance} at={`${place}/shim`} label="Shim fitted there" unit="mm" />
      )}
      <div role="status" id="valve.answer">
        {asking && <NothingGoes valve={name} sure={() => setSure(true)} />}
        {judged && !asking && <AnswerCard valve={judged} shown={unit} />}
      </div>
      {(resets || setting) && unseen.length === 0 && !asking && (
        <button type="button" onClick={() => setSetting(!setting)}>
          {setting ? `Back to ${name} as found` : "I set it: read it again"}
        </button>
      )}
      <Peek
        name={name}
        echo={`${name}: ${echo(felt) || (setting ? "set, now what goes in?" : "what goes in?")}`}
        judged={judged && !asking && isShown(felt, read) ? judged.judged : []}
        hint={asking ? "Turn nothing yet: is it closed?" : hintOf(felt, figuresOf(props, valve.kind))}
        demo={job.demo}
        answer="valve.answer"
      >
        {read && resets && !setting && unseen.length === 0 && !asking && (
          <button type="button" onClick={() => setSetting(true)}>
            I set it
          </button>
        )}
        {unseen.length > 0 ? (
          <button type="button" class="main stop-work" onClick={() => showFindings(unseen, job.seen)}>
            Settle first
          </button>
        ) : after && read ? (
          <button type="button" class="main" onClick={() => goOn(after)}>
            Next: {nameOf(after)}
          </button>
        ) : (
          onward
        )}
      </Peek>
    </div>
  );
}

const isShown = (felt: Felt, read: boolean): boolean => read || echo(felt) !== "";

const hintOf = (felt: Felt, book: string): string =>
  echo(felt) ? "Now the other side" : `Book ${book}. Tap the thickest leaf that goes in`;

/** What tells a finding from one of its kind about other valves. */
const nameOfFinding = ({ code, valves }: StopWorkReport): string => `${code} ${valves.join()}`;

/** A joint finding is read before the next valve. */
function showFindings(unseen: readonly StopWorkReport[], seen: readonly string[]): void {
  const found = document.getElementById("findings");
  found?.scrollIntoView({ block: "start", behavior: "instant" });
  found?.focus({ preventScroll: true });
  moveJob({ seen: [...seen, ...unseen.map(nameOfFinding)] });
}

function goOn(valve: CheckReport): void {
  moveJob({ open: keyOf(valve) });
  const stop = document.querySelector<HTMLElement>(".turn");
  stop?.focus({ preventScroll: true });
  stop?.scrollIntoView({ block: "start" });
  // Below the picture of a large engine the leaves would be out of sight.
  stop?.querySelector(".reading fieldset")?.scrollIntoView({ block: "nearest" });
}
