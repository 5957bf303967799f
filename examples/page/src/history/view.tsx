// Past services: what they say of each valve, when to look next, and what was typed of them.

import { Demo } from "../answer";
import { put } from "../draft";
import type { Sheet } from "../field";
import { Advice, Texts } from "../ignition/told";
import { Foot } from "../job";
import type { AnyReport } from "../kernel";
import { Assumed, Lines } from "../lines";
import { parted, placeOf } from "../needed";
import { Needed } from "../parts";
import { placeWords } from "../places";
import { Problems } from "../problems";
import { RecordForm } from "../record";
import { openJob, writeJob, type Job, type Settings, type State } from "../state";
import { ServiceNext } from "../steps/next";
import { sentence } from "../words";
import { pastOf } from "../steps/ask";
import { PastChart } from "./chart";
import { Odd } from "./odd";
import { PRESETS } from "./presets";
import { Services } from "./services";

export function HistoryView({ state: { job, settings } }: { state: State }) {
  if (job) return <OfJob job={job} settings={settings} />;
  return (
    <div class="view">
      <h1>History</h1>
      <p class="empty">
        Past services are those of the engine of a job. <a href="#job">Go to the jobs</a>.
      </p>
      <section class="card">
        <h2>Try an invented engine</h2>
        <p class="hint">Made up, with made-up figures, and marked DEMO.</p>
        <div class="stack">
          {PRESETS.map((document) => (
            <button type="button" key={document.title} onClick={() => openJob(document, { demo: true })}>
              {document.title}
            </button>
          ))}
        </div>
      </section>
    </div>
  );
}

function OfJob({ job, settings }: { job: Job; settings: Settings }) {
  const { document } = job;
  const { report, problems } = pastOf(document);
  const { needed, wrong } = parted(document, problems);
  const sheet: Sheet = {
    document,
    problems,
    assumptions: report?.assumptions,
    write: (pointer, value) => writeJob(put(document, pointer, value), placeWords(pointer, document)),
  };
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
  const { lash, present, counted_by } = report.history!;
  return (
    <>
      {lash && <Odd lash={lash} />}
      {lash?.next && <p class="do">{sentence(lash.next)}</p>}
      {lash && <Lines look="plain" lines={lash.kinds} />}
      {lash && (
        <details class="small">
          <summary>What must be sure before it is relied on</summary>
          <Lines look="plain" lines={lash.sure} />
        </details>
      )}
      {lash?.valves.map((valve) => (
        <details class="small" key={valve.name} open={valve.odd?.is_odd === true}>
          <summary>
            {sentence(valve.name).slice(0, -1)}
            {valve.rate_text && `: ${valve.rate_text}`}
          </summary>
          <Texts
            texts={[
              valve.odd?.text,
              valve.last && `last ${valve.last}`,
              valve.forecast_text,
              ...valve.looks.map(({ specification, text }) => `${text} (${specification})`),
              ...valve.bedding.map(({ text }) => text),
            ]}
          />
          <Advice advice={valve.advice} />
          <PastChart
            name={valve.name}
            chart={valve.chart}
            by={counted_by}
            limits={valve.looks
              .flatMap(({ low_mm, high_mm }) => [low_mm, high_mm])
              .filter((mm) => mm != null)}
          />
        </details>
      ))}
      {lash?.recession && (
        <details class="small">
          <summary>{sentence(lash.recession.text)}</summary>
          <Facts of="For it" lines={lash.recession.for_text} />
          <Facts of="Against it" lines={lash.recession.against_text} />
          <Facts of="Not known" lines={lash.recession.not_known_text} />
          <Facts of="Published" lines={lash.recession.published} />
        </details>
      )}
      <p class="hint">{sentence(present)}</p>
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
