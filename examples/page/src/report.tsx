// The report: what is to do first, every valve as found and as left, and the document to keep. On paper the
// cautions come first, and what was not said is a box to fill in.

import { Lines } from "./lines";
import { Sign, Signs } from "./answer";
import { echo, fromReading } from "./felt";
import { download, fileName } from "./files";
import { gap, type Shown } from "./gaps";
import type { StageProps } from "./job";
import type { ClearanceReport, Report, ValveReport } from "./kernel";
import { readingOf } from "./progress";
import { RecordForm, RecordLine } from "./record";
import { More } from "./report-more";
import { together, stepsOf, wholeOf } from "./report-steps";
import { Problems } from "./problems";
import { moveJob, type Job } from "./state";
import { BOOKS, ENDS, RULES, sentence, short } from "./words";

export function ReportStage({ state, job, answer, sheet }: StageProps) {
  const { report } = answer;
  const later = stepsOf(job.document);
  if (!report) return null;
  const { clearance } = report;
  const shown = state.settings.unit;
  const findings = clearance.stop_work;
  const cautions = together(report.cautions, ...later.map((step) => step.report.cautions));
  return (
    <>
      <Problems problems={answer.problems} document={job.document} />
      <div class="row tools">
        <button type="button" class="main" onClick={() => print()}>
          Print
        </button>
        <button
          type="button"
          onClick={() =>
            download(fileName(job.document.title ?? ""), `${JSON.stringify(job.document, null, 2)}\n`)
          }
        >
          Save as a file
        </button>
        <button type="button" onClick={() => moveJob({ stage: "turn" })}>
          Back to the engine
        </button>
        <a class="button" href="#charts">
          Charts
        </a>
      </div>
      <RecordForm sheet={sheet} />
      <article class={`sheet ${wholeOf(later)}`} aria-label="Report">
        <h2>
          {report.title ?? "Engine without a name"}
          {job.demo && " – DEMO, invented engine"}
        </h2>
        <RecordLine document={job.document} />
        {findings.length > 0 && (
          <section class="problems">
            <h3>Settle this before anything is set</h3>
            <Lines look="plain" lines={findings} />
          </section>
        )}
        {later.map((step) => step.stop)}
        <Cautions cautions={cautions} where="paper" />
        {report.note && <p>{report.note}</p>}
        <ValveTable report={clearance} job={job} shown={shown} />
        {clearance.not_read.length > 0 && (
          <p>
            <strong>Not read:</strong> {clearance.not_read.map(short).join(", ")}.
          </p>
        )}
        <More report={clearance} shown={shown} />
        {later.map((step) => step.shown)}
        <section>
          <h3>Book used</h3>
          <Books report={clearance} />
          <p class="facts-line">
            Firing order {report.engine.firing_order.join("–")}; no. 1: {numbering(report.engine.numbering)}.{" "}
            {sentence(clearance.metal.join("; "))} Strictness: {ruleName(clearance.rule)}.
          </p>
        </section>
        <section>
          <h3>Assumed</h3>
          <Assumed all={together(report.assumptions, ...later.map((step) => step.report.assumptions))} />
        </section>
        <Cautions cautions={cautions} where="screen" />
      </article>
    </>
  );
}

/** What a verdict or a place hangs on; the rest folded, and small on paper. */
function Assumed({ all }: { all: Report["assumptions"] }) {
  const rest = all.filter((one) => one.bears_on === "other");
  return (
    <>
      <Lines look="plain" lines={all.filter((one) => one.bears_on !== "other")} />
      {rest.length > 0 && (
        <>
          <details class="small on-screen">
            <summary>What no verdict hangs on ({rest.length})</summary>
            <Lines look="plain" lines={rest} />
          </details>
          <div class="small on-paper">
            <Lines look="plain" lines={rest} />
          </div>
        </>
      )}
    </>
  );
}

/** First on paper, which goes to the engine; last on the screen, where they were read before. */
function Cautions({ cautions, where }: { cautions: readonly string[]; where: "paper" | "screen" }) {
  return (
    <section class={`mind on-${where}`}>
      <h3>Cautions</h3>
      <Lines look="plain" lines={cautions} />
    </section>
  );
}

const numbering = (said: string): string => ENDS[said as keyof typeof ENDS] ?? said;

const ruleName = (rule: string): string => (rule in RULES ? RULES[rule as keyof typeof RULES][0] : rule);

function Books({ report }: { report: ClearanceReport }) {
  return (
    <>
      <ul class="plain books">
        {report.specifications.map((book) => (
          <li key={book.id}>
            <strong>{book.id}</strong>:{" "}
            {[book.provenance, BOOKS[book.applicability] ?? book.applicability].filter(Boolean).join("; ")}.
            Intake {book.intake}. Exhaust {book.exhaust}.
          </li>
        ))}
      </ul>
      {report.disagreements.length > 0 && (
        <>
          <p>
            <strong>The books disagree</strong>
          </p>
          <Lines look="plain" lines={report.disagreements} />
        </>
      )}
    </>
  );
}

/** What is to do comes first, what is good last. */
const ORDER = ["find_cause", "settle_first", "reset", "measure"];

const urgency = ({ judged }: ValveReport): number =>
  Math.min(
    ...judged.map(({ advice }) => {
      const at = ORDER.indexOf(advice.action);
      return at < 0 ? ORDER.length : at;
    }),
  );

function ValveTable({ report, job, shown }: { report: ClearanceReport; job: Job; shown: Shown }) {
  if (report.valves.length === 0) return <p>No valve is read yet.</p>;
  const several = report.valves.some((valve) => valve.judged.length > 1);
  const valves = [...report.valves].sort((a, b) => urgency(a) - urgency(b));
  return (
    <div class="scroll" role="region" aria-label="Valves" tabIndex={0}>
      <table class="cards">
        <thead>
          <tr>
            <th scope="col">Valve</th>
            <th scope="col">Found</th>
            {several && <th scope="col">Book</th>}
            <th scope="col">Gap</th>
            <th scope="col">Verdict</th>
            <th scope="col" class="todo">
              To do
            </th>
            <th scope="col">Left</th>
          </tr>
        </thead>
        <tbody>
          {valves.map((valve) => (
            <Rows key={valve.name} valve={valve} several={several} shown={shown} job={job} />
          ))}
        </tbody>
      </table>
    </div>
  );
}

interface RowsProps {
  valve: ValveReport;
  several: boolean;
  shown: Shown;
  job: Job;
}

function Rows({ valve, several, shown, job }: RowsProps) {
  const count = Math.max(valve.judged.length, 1);
  const taken = readingOf(job.document.clearance.readings, valve);
  // Where no leaf or every leaf goes, the record names the last one that was tried.
  const ended = taken?.nothing_goes || taken?.everything_goes;
  const found = (!ended && echo(fromReading(taken, ""))) || valve.reading;
  const name = (
    <>
      <th scope="row" rowSpan={count}>
        {short(valve.name)}
      </th>
      <td rowSpan={count} class="leaves" data-label="Found">
        {found}
      </td>
    </>
  );
  const leftCell = (
    <td rowSpan={count} class="left" data-label="Left">
      {taken?.left ? (
        <>
          {echo(fromReading(taken.left, ""))} <Signs judged={valve.left?.judged ?? []} />
        </>
      ) : (
        <span class="box" />
      )}
    </td>
  );
  if (valve.judged.length === 0) {
    return (
      <tr>
        {name}
        <td colSpan={several ? 4 : 3}>no book applies</td>
        {leftCell}
      </tr>
    );
  }
  return (
    <>
      {valve.judged.map((judged, i) => (
        <tr key={judged.specification}>
          {i === 0 && name}
          {several && <td data-label="Book">{judged.specification}</td>}
          <td class="number" data-label="Gap">
            {gap(judged.low, judged.high, shown)}
          </td>
          <td data-label="">
            <Sign verdict={judged.verdict} said={judged.verdict_text} />
          </td>
          <td class="todo" data-label="To do">
            {sentence(judged.advice.text)}
          </td>
          {i === 0 && leftCell}
        </tr>
      ))}
    </>
  );
}
