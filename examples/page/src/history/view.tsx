// Past services: what they say of each valve and of what else was read, when to look next, and what was typed of them.

import { Fold } from "../fields";
import { Advice, Texts } from "../ignition/told";
import { sheetOf } from "../job-sheet";
import type { AnyReport, QuantityHistoryReport } from "../kernel";
import { Lines } from "../lines";
import { RecordForm } from "../record";
import { type Job, type Settings, type State } from "../state";
import { Alone, Frame } from "../steps/frame";
import { sentence } from "../words";
import { pastOf } from "../steps/ask";
import { PastChart } from "./chart";
import { Odd } from "./odd";
import { PRESETS } from "./presets";
import { Services } from "./services";
import { toldOf } from "./told";

export const HistoryView = ({ state: { job, settings } }: { state: State }) =>
  job ? (
    <OfJob job={job} settings={settings} />
  ) : (
    <Alone title="History" of="Past services are those of" engines={PRESETS} />
  );

function OfJob({ job, settings }: { job: Job; settings: Settings }) {
  const answer = pastOf(job.document);
  const { report, problems } = answer;
  const sheet = sheetOf(job, { problems, assumptions: report?.assumptions });
  return (
    <Frame job={job} title="History" answer={answer}>
      {report?.history && (
        <section class="card" aria-label="What the years say">
          <h2>What the years say</h2>
          <PastFound report={report} />
        </section>
      )}
      <RecordForm sheet={sheet} />
      <Services sheet={sheet} unit={settings.unit} warmth={settings.warmth} />
    </Frame>
  );
}

/** What comes first on account of the years, each valve with its chart; what is odd is open. */
function PastFound({ report }: { report: AnyReport }) {
  const { recession, present, record } = report.history!;
  const told = toldOf(report);
  return (
    <>
      {record && <p class="notice">{sentence(record.text)}</p>}
      <Odd told={told} />
      {told.map((one, i) => (
        <OfQuantity key={i} told={one} />
      ))}
      {recession && (
        <Fold title={sentence(recession.text)}>
          <Facts of="For it" lines={recession.for_text} />
          <Facts of="Against it" lines={recession.against_text} />
          <Facts of="Not known" lines={recession.not_known_text} />
          <Facts of="Published" lines={recession.published} />
        </Fold>
      )}
      <p class="hint">{sentence(present)}</p>
    </>
  );
}

function OfQuantity({ told }: { told: QuantityHistoryReport }) {
  return (
    <>
      {told.next && <p class="do">{sentence(told.next)}</p>}
      <Lines look="plain" lines={told.kinds} />
      <Fold title="What must be sure before it is relied on">
        <Lines look="plain" lines={told.sure} />
      </Fold>
      {told.subjects.map((subject) => (
        <details class="small" key={subject.name} open={subject.odd?.is_odd === true}>
          <summary>
            {sentence(subject.name).slice(0, -1)}
            {subject.rate_text && `: ${subject.rate_text}`}
          </summary>
          <Texts
            texts={[
              subject.odd?.text,
              subject.last && `last ${subject.last}`,
              subject.forecast_text,
              ...subject.looks.map(({ specification, text }) => `${text} (${specification})`),
              ...subject.bedding.map(({ text }) => text),
            ]}
          />
          <Advice advice={subject.advice} />
          <PastChart name={subject.name} chart={subject.chart} />
        </details>
      ))}
    </>
  );
}

function Facts({ of: what, lines }: { of: string; lines: readonly string[] }) {
  if (lines.length === 0) return null;
  return (
    <>
      <p>{what}:</p>
      <Lines look="plain" lines={lines} />
    </>
  );
}
