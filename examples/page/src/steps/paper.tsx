// The record of a step for paper: what stops the work, the order of work, what to do and what was read. It stands
// in the report of a job, or alone where nothing was read of the valves.

import type { ComponentChildren } from "preact";
import type { AnyReport, Document } from "../kernel";
import { Lines } from "../lines";
import { RecordLine } from "../record";
import type { Job } from "../state";
import { found, type StepPart } from "./ask";
import { Steps, StopWork } from "./order";

/** A step as it stands on paper. */
export interface OnPaper {
  part: StepPart;
  title: string;
  /** What is dangerous, before everything else. */
  dangers: (report: AnyReport) => readonly string[];
  /** Heading, what was found of it if anything, and how that is shown. */
  parts: (
    report: AnyReport,
    document: Document,
  ) => readonly (readonly [string, unknown, ComponentChildren])[];
}

/** What is dangerous, what stops the work: it comes before the rest. */
export function Before({ report, of }: { report: AnyReport; of: OnPaper }) {
  const found = report[of.part];
  const dangers = of.dangers(report);
  return (
    <>
      {dangers.length > 0 && (
        <section class="problems" aria-label="Danger">
          <h2>Danger</h2>
          <Lines look="plain" lines={dangers} />
        </section>
      )}
      {found && <StopWork found={found} said={dangers} />}
    </>
  );
}

/** What a report shows of it, before and after the rest of its own. */
export function shownOf(document: Document, of: OnPaper) {
  const { report } = found(document, of.part);
  const own = report?.[of.part];
  if (!report || !own) return undefined;
  return {
    report,
    stop: <Before report={report} of={of} />,
    shown: (
      <>
        <section class="order">
          <h3>{of.title}: order of work</h3>
          <Steps found={own} />
        </section>
        {of.parts(report, document).map(
          ([title, part, shown]) =>
            part != null && (
              <section key={title}>
                <h3>{title}</h3>
                {shown}
              </section>
            ),
        )}
      </>
    ),
  };
}

/** A record of the step alone. */
export function Paper({ job: { document, demo }, of }: { job: Job; of: OnPaper }) {
  const made = shownOf(document, of);
  if (!made) return null;
  const { report } = made;
  return (
    <article class="sheet" aria-label="Report">
      <h2>
        {document.title || "Engine without a name"}: {of.title.toLowerCase()}
        {demo && " – DEMO, invented engine"}
      </h2>
      <RecordLine document={document} />
      {made.stop}
      <section class="mind">
        <h3>Cautions</h3>
        <Lines look="plain" lines={report.cautions} />
      </section>
      {made.shown}
      <section>
        <h3>Assumed</h3>
        <Lines look="plain" lines={report.assumptions} />
      </section>
    </article>
  );
}
