// For whoever would rather look: every valve as a picture, and the gap against temperature.

import { Sign } from "./answer";
import { Curves } from "./curves";
import type { Report } from "./kernel";
import { Picture } from "./picture";
import { standing } from "./progress";
import type { State } from "./state";

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
