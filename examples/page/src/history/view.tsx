// Past services: what they say of each valve and of what else was read, when to look next, and what was typed of them.

import { Demo } from "../answer";
import { Fold } from "../fields";
import { Advice, Texts } from "../ignition/told";
import { Foot } from "../job";
import { sheetOf } from "../job-sheet";
import type { AnyReport, HistoryReport, QuantityHistoryReport } from "../kernel";
import { Assumed, Lines } from "../lines";
import { parted, placeOf } from "../needed";
import { Needed } from "../parts";
import { placeWords } from "../places";
import { Problems } from "../problems";
import { RecordForm } from "../record";
import { type Job, type Settings, type State } from "../state";
import { Invented } from "../steps/invented";
import { ServiceNext } from "../steps/next";
import { sentence } from "../words";
import { pastOf } from "../steps/ask";
import { PastChart } from "./chart";
import { Odd } from "./odd";
import { PRESETS } from "./presets";
import { Services } from "./services";
import { toldOf } from "./told";

export function HistoryView({ state: { job, settings } }: { state: State }) {
  if (job) return <OfJob job={job} settings={settings} />;
  return (
    <div class="view">
      <h1>History</h1>
      <p class="empty">
        Past services are those of the engine of a job. <a href="#job">Go to the jobs</a>.
      </p>
      <Invented engines={PRESETS} />
    </div>
  );
}

function OfJob({ job, settings }: { job: Job; settings: Settings }) {
  const { document } = job;
  const { report, problems } = pastOf(document);
  const { needed, wrong } = parted(document, problems);
  const sheet = sheetOf(job, { problems, assumptions: report?.assumptions });
  return (
    <div class="view">
      <h1 class="tools">History {job.demo && <Demo />}</h1>
      <p class="row tools">
        <span>{document.title || "Engine without a name"}</span>
        <a class="button" href="#service">
          Whole service
        </a>
        <a class="button" href="#job">
          Back to the engine
        </a>
      </p>
      <Problems problems={wrong} document={document} />
      <Needed names={needed.map((problem) => placeWords(placeOf(problem), document))} />
      {report?.history && (
        <section class="card" aria-label="What the years say">
          <h2>What the years say</h2>
          <PastFound report={report} />
        </section>
      )}
      <RecordForm sheet={sheet} />
      <Services sheet={sheet} unit={settings.unit} warmth={settings.warmth} />
      {report && <Assumed lines={report.assumptions} />}
      <ServiceNext document={document} />
      <Foot job={job} />
    </div>
  );
}

/** What comes first on account of the years, each valve with its chart; what is odd is open. */
function PastFound({ report }: { report: AnyReport }) {
  const { recession, present } = report.history!;
  const told = toldOf(report);
  return (
    <>
      <Odd told={told} />
      {told.map((one, i) => (
        <OfQuantity key={i} told={one} by={report.history!.counted_by} />
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

interface OfQuantityProps {
  told: QuantityHistoryReport;
  by: HistoryReport["counted_by"];
}

function OfQuantity({ told, by }: OfQuantityProps) {
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
          <PastChart
            name={subject.name}
            chart={subject.chart}
            by={by}
            unit={told.unit}
            limits={subject.looks.flatMap(({ low, high }) => [low, high]).filter((end) => end != null)}
          />
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
