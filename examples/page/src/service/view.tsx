// The whole service of a job: its steps in their order with their state, each with the way to it, and what is next.

import { Demo } from "../answer";
import { put } from "../draft";
import { Foot } from "../job";
import { sheetOf } from "../job-sheet";
import type { ServiceReport } from "../kernel";
import { writeJob, type Job, type State } from "../state";
import { inAll } from "../steps/ask";
import { Alone, Ways } from "../steps/frame";
import { SCREENS, ServiceNext, STATES, toStep } from "../steps/next";
import { sentence } from "../words";
import { DoneForm } from "./done";
import { WholeRecord } from "./record";

export function ServiceView({ state: { job, settings } }: { state: State }) {
  if (!job) return <Alone title="Whole service" of="A service is that of" />;
  const { report, problems } = inAll(job.document);
  const service = report?.service;
  return (
    <div class="view">
      <h1 class="tools">Whole service {job.demo && <Demo />}</h1>
      <Ways job={job} ways={SCREENS} />
      {service ? (
        <section class="card tools" aria-label="Steps of the service">
          <h2>Steps in their order</h2>
          <ol aria-label="Steps" class="plain">
            {service.steps.map((step) => (
              <ServiceStep
                key={step.step}
                job={job}
                step={step}
                service={service}
                isNext={step.step === service.next?.step}
              />
            ))}
          </ol>
          {service.unlogged_text && <p class="hint">{sentence(service.unlogged_text)}</p>}
        </section>
      ) : (
        <p class="empty">
          Nothing can be said before the engine is described, and what was done is right.{" "}
          <a href="#job">Describe it</a>.
        </p>
      )}
      <DoneForm sheet={sheetOf(job, { problems })} steps={service?.steps ?? []} unit={settings.unit} />
      <WholeRecord job={job} />
      <Foot job={job} />
      <ServiceNext document={job.document} />
    </div>
  );
}

type Step = ServiceReport["steps"][number];

const isBegun = ({ state }: Step) => state !== "not_begun" && state !== "not_known";

/** Notes what was done to a step now, behind what was read and is not noted yet. */
function note(
  { document }: Job,
  { unlogged }: ServiceReport,
  { step, name }: Step,
  did: "read" | "set",
): void {
  const read = unlogged.map((step) => ({ step, did: "read" as const }));
  writeJob(put(document, "/log", [...(document.log ?? []), ...read, { step, did }]), `${name} ${did} again`);
}

interface StepProps {
  job: Job;
  step: Step;
  service: ServiceReport;
  isNext: boolean;
}

function ServiceStep({ job, step, service, isNext }: StepProps) {
  const [look, word] = STATES[step.state];
  const name = sentence(step.name).slice(0, -1);
  return (
    <li aria-current={isNext ? "step" : undefined}>
      <p>
        <span class={`sign ${look}`}>{word}</span> <a href={toStep(step.step)}>{name}</a>
        {isNext && <strong> – next</strong>}
      </p>
      {step.state !== "not_begun" && <p>{sentence(step.text)}</p>}
      {isBegun(step) && (
        <p class="row">
          {step.state === "stale" && (
            <button type="button" onClick={() => note(job, service, step, "read")}>
              {name}: read again now
            </button>
          )}
          {step.can_be_set && (
            <button type="button" class="quiet" onClick={() => note(job, service, step, "set")}>
              {name}: set again now
            </button>
          )}
        </p>
      )}
    </li>
  );
}
