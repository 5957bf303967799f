// For whoever would rather look: the plans on the dial and every valve as a picture.

import { Sign } from "./answer";
import { Curves } from "./curves";
import { Dial } from "./dial";
import type { Report } from "./kernel";
import { Picture } from "./picture";
import { readingIndex, standing } from "./progress";
import type { Job, State } from "./state";
import { degrees, METHODS } from "./words";

export function ChartsView({ state }: { state: State }) {
  const { job } = state;
  const report = job && standing(job.document).report;
  return (
    <div class="view charts">
      <h1>Charts</h1>
      {job && report ? (
        <>
          <p>{report.title}</p>
          <Valves report={report} state={state} />
          <Curves document={job.document} shown={state.settings.unit} warmth={state.settings.warmth} />
          <Plans report={report} job={job} />
        </>
      ) : (
        <p class="empty">
          Charts are drawn for the job that is open. <a href="#job">Go to the job</a>.
        </p>
      )}
    </div>
  );
}

function Valves({ report, state }: { report: Report; state: State }) {
  return (
    <section>
      <h2>Valve by valve</h2>
      {report.clearance.valves.length === 0 && <p class="empty">No valve is read yet.</p>}
      <ul class="tiles">
        {report.clearance.valves.flatMap((valve) =>
          valve.judged.map((judged) => (
            <li key={valve.name + judged.specification}>
              <p class="tile-head">
                <span>{valve.name.replace(/^c/, "C")}</span>
                <Sign verdict={judged.verdict} />
              </p>
              <Picture judged={judged} title={valve.name} shown={state.settings.unit} />
              <p class="hint">
                {judged.limits} ({judged.specification})
              </p>
            </li>
          )),
        )}
      </ul>
    </section>
  );
}

function Plans({ report, job }: { report: Report; job: Job }) {
  return (
    <section>
      <h2>Ways round the engine</h2>
      <ul class="tiles dials">
        {report.clearance.plans.map((plan) => (
          <li key={plan.method}>
            <p class="tile-head">
              <span>{METHODS[plan.method] ?? plan.method.replaceAll("_", " ")}</span>
              <span>
                {plan.stops.length} stops, {degrees(plan.total_turn.deg)}
              </span>
            </p>
            <Dial
              report={report}
              plan={plan}
              done={plan.stops.map((stop) => stop.check.every((v) => readingIndex(job.document, v) >= 0))}
            />
            <ol>
              {plan.stops.map((stop, i) => (
                <li key={i}>{stop.check.map((v) => v.valve.replace(/^cylinder /, "")).join(", ")}</li>
              ))}
            </ol>
          </li>
        ))}
      </ul>
    </section>
  );
}
