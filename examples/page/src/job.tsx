// A whole job, from the engine to the report, in four stages.

import type { ComponentChildren } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";
import { Cautions } from "./cautions";
import { Describe } from "./describe";
import { NewJob } from "./new-job";
import { standing, type Standing } from "./progress";
import { ReportStage } from "./report";
import { moveJob, redoJob, shelveJob, undoJob, type Job, type Stage, type State } from "./state";
import { Demo } from "./answer";
import { clearanceOf, type Sheet } from "./field";
import { sheetOf } from "./job-sheet";
import { SCREENS, ServiceNext } from "./steps/next";
import { Turn } from "./turn";

const STAGES: Record<Stage, string> = {
  describe: "Engine",
  cautions: "Cautions",
  turn: "Readings",
  report: "Report",
};

/** What every stage works with. */
export interface StageProps {
  state: State;
  job: Job;
  answer: Standing;
  /** The whole document. */
  sheet: Sheet;
  /** The part of it that is about clearances. */
  clearance: Sheet;
}

export function JobView({ state }: { state: State }) {
  const { job } = state;
  const title = useRef<HTMLHeadingElement>(null);
  const before = useRef(job?.stage);
  // Before anything else can be pressed: a focus that moved later would take the next key with it.
  useLayoutEffect(() => {
    // A new stage begins at its top, for eyes and for keys.
    if (before.current !== undefined && before.current !== job?.stage) {
      title.current?.focus({ preventScroll: true });
      if (job?.stage !== "turn") scrollTo(0, 0);
    }
    before.current = job?.stage;
  }, [job?.stage]);
  if (!job) return <NewJob state={state} />;
  const found = standing(job.document);
  const sheet = sheetOf(job, { problems: found.problems, assumptions: found.report?.assumptions });
  const props: StageProps = { state, job, answer: found, sheet, clearance: clearanceOf(sheet) };
  // Without a plan nobody knows where to turn; before the cautions nobody turns.
  const stage = found.report ? reached(job) : "describe";
  return (
    <div class="view job">
      <h1 ref={title} tabIndex={-1}>
        {job.document.title || "Engine without a name"} {job.demo && <Demo />}
      </h1>
      <nav class="stages" aria-label="Stages of the job">
        <ol>
          {(Object.keys(STAGES) as Stage[]).map((one) => (
            <li key={one}>
              <button
                type="button"
                aria-current={one === stage ? "step" : undefined}
                disabled={one !== "describe" && !allowed(one, job, found)}
                onClick={() => moveJob({ stage: one })}
              >
                {STAGES[one]}
              </button>
            </li>
          ))}
        </ol>
      </nav>
      {stage === "describe" && <Describe {...props} />}
      {stage === "cautions" && <Cautions {...props} />}
      {stage === "turn" && <Turn {...props} />}
      {stage === "report" && <ReportStage {...props} />}
      <Foot job={job}>
        {Object.entries({ ...SCREENS, job: "Whole service" }).map(([view, name]) => (
          <a class="button" key={view} href={`#${view === "job" ? "service" : view}`}>
            {name}
          </a>
        ))}
      </Foot>
      {(stage === "describe" || stage === "report") && (
        <ServiceNext document={job.document} waits={stage === "describe"} />
      )}
    </div>
  );
}

/** Taking back, putting back, putting away: each says what it does it to. */
export function Foot({ job, children }: { job: Job; children?: ComponentChildren }) {
  const [last] = job.past;
  const [undone] = job.future;
  return (
    <div class="row job-foot">
      {undone && (
        <p class="notice" role="status">
          Taken back: {undone.what}.
          <button type="button" onClick={redoJob}>
            Put back
          </button>
        </p>
      )}
      <button type="button" onClick={undoJob} disabled={!last}>
        {last ? `Undo: ${last.what}` : "Nothing to undo"}
      </button>
      {children}
      <button type="button" class="quiet" onClick={shelveJob}>
        Save and close
      </button>
    </div>
  );
}

const reached = (job: Job): Stage => (job.stage === "turn" && !job.cautionsRead ? "cautions" : job.stage);

function allowed(stage: Stage, job: Job, { report }: Standing): boolean {
  return report !== null && (stage !== "turn" || job.cautionsRead);
}
