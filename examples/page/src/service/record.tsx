// One record of all steps, to print and to keep. Where valves are read it stands in the report of the job.

import { download, fileName } from "../files";
import { Lines } from "../lines";
import { standing } from "../progress";
import { RecordLine } from "../record";
import { together, stepsOf, wholeOf } from "../report-steps";
import { moveJob, type Job } from "../state";
import { toKeep } from "../steps/ask";

export function WholeRecord({ job }: { job: Job }) {
  const { document } = job;
  const isRead = (standing(document).report?.clearance.valves.length ?? 0) > 0;
  return (
    <>
      <div class="row tools">
        {isRead && (
          <a class="button" href="#job" onClick={() => moveJob({ stage: "report" })}>
            Report of all of it
          </a>
        )}
        <button type="button" onClick={() => download(fileName(document.title ?? ""), toKeep(document))}>
          Save as a file
        </button>
      </div>
      {!isRead && <WithoutValves job={job} />}
    </>
  );
}

function WithoutValves({ job: { document, demo } }: { job: Job }) {
  const steps = stepsOf(document);
  return (
    <>
      <button type="button" class="main tools" onClick={() => print()} disabled={steps.length === 0}>
        Print all of it
      </button>
      <article class={`sheet on-paper ${wholeOf(steps)}`} aria-label="Record of the service">
        <h2>
          {document.title || "Engine without a name"}
          {demo && " – DEMO, invented engine"}
        </h2>
        <RecordLine document={document} />
        {steps.map((step) => step.stop)}
        <section class="mind">
          <h3>Cautions</h3>
          <Lines look="plain" lines={together(...steps.map(({ report }) => report.cautions))} />
        </section>
        {steps.map((step) => step.shown)}
        <section>
          <h3>Assumed</h3>
          <Lines look="plain" lines={together(...steps.map(({ report }) => report.assumptions))} />
        </section>
      </article>
    </>
  );
}
