// The record of the ignition for paper: what stops the work, the order of work, what to do and what was read. It
// stands in the report of a job, or alone where nothing was read of the valves.

import { asText, at } from "../draft";
import type { AnyReport, Document } from "../kernel";
import { Lines } from "../lines";
import { RecordLine } from "../record";
import type { Job } from "../state";
import { AdvanceFound } from "./advance";
import { found } from "./ask";
import { ContactsFound } from "./contacts";
import { ElectricsFound } from "./electrics";
import { EvennessFound } from "./evenness";
import { LeadsFound } from "./leads";
import { Danger, MagnetoFound } from "./magneto";
import { Steps, StopWork } from "./order";
import { PointFound } from "./point";
import { TimingFound } from "./timing";

/** What a report shows of it, before and after the rest of its own. */
export function paperOf(document: Document) {
  const { report } = found(document);
  const ignition = report?.ignition;
  if (!report || !ignition) return undefined;
  return {
    report,
    stop: (
      <>
        <Danger report={report} />
        <StopWork found={ignition} />
      </>
    ),
    shown: <Parts document={document} report={report} />,
  };
}

/** A record of the ignition alone. */
export function Paper({ job: { document, demo } }: { job: Job }) {
  const made = paperOf(document);
  if (!made) return null;
  const { report } = made;
  return (
    <article class="sheet" aria-label="Report">
      <h2>
        {document.title || "Engine without a name"}: ignition{demo && " – DEMO, invented engine"}
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

function Parts({ document, report }: { document: Document; report: AnyReport }) {
  const ignition = report.ignition!;
  const rotor = asText(at(document, "/ignition/distributor/rotor"));
  const parts = [
    ["Leads and distributor drive", ignition.leads, <LeadsFound report={report} />],
    ["Contacts", ignition.contacts, <ContactsFound report={report} />],
    ["Timing", ignition.timing, <TimingFound report={report} />],
    ["Advance", ignition.timing?.curve, <AdvanceFound report={report} />],
    ["Evenness", ignition.evenness, <EvennessFound report={report} rotor={rotor} />],
    ["Coil, condenser and plugs", ignition.electrics, <ElectricsFound report={report} />],
    ["Magnetos", ignition.magneto, <MagnetoFound report={report} />],
    ["Ignition point, every way", ignition.point, <PointFound report={report} />],
  ] as const;
  return (
    <>
      <h3>Ignition: order of work</h3>
      <Steps found={ignition} />
      {parts.map(
        ([title, part, shown]) =>
          part && (
            <section key={title}>
              <h3>{title}</h3>
              {shown}
            </section>
          ),
      )}
    </>
  );
}
