// The report: every valve on one page that can be printed, and the document to keep.

import { Sign } from "./answer";
import { download, fileName } from "./files";
import { gap, type Shown } from "./gaps";
import type { StageProps } from "./job";
import type { ClearanceReport, ValveReport } from "./kernel";
import { More } from "./report-more";
import { Problems } from "./problems";
import { moveJob } from "./state";
import { BOOKS, chance, RULES, sentence } from "./words";

/** More valves than this are printed smaller, to stay on one page. */
const MANY = 32;

export function ReportStage({ state, job, answer }: StageProps) {
  const { report } = answer;
  if (!report) return null;
  const { clearance } = report;
  const shown = state.settings.unit;
  return (
    <>
      <Problems problems={answer.problems} />
      <div class="row tools">
        <button type="button" class="main" onClick={() => print()}>
          Print on one page
        </button>
        <button
          type="button"
          onClick={() =>
            download(fileName(job.document.title ?? ""), `${JSON.stringify(job.document, null, 2)}\n`)
          }
        >
          Save as a file
        </button>
        <button type="button" onClick={() => moveJob({ stage: "turn", stop: 0 })}>
          Back to the engine
        </button>
      </div>
      <article class={clearance.valves.length > MANY ? "sheet many" : "sheet"} aria-label="Report">
        <h2>{report.title}</h2>
        {report.note && <p>{report.note}</p>}
        <ValveTable report={clearance} shown={shown} />
        {clearance.not_read.length > 0 && (
          <p>
            <strong>Not read:</strong> {clearance.not_read.join(", ")}.
          </p>
        )}
        <More report={clearance} shown={shown} />
        <section>
          <h3>Held against</h3>
          <Books report={clearance} />
          <p class="facts-line">
            Firing order {report.engine.firing_order.join("–")}; {report.engine.numbering}.{" "}
            {sentence(clearance.metal.join("; "))} Rule: {ruleName(clearance.rule)}.
          </p>
        </section>
        <section>
          <h3>Assumed</h3>
          <ul class="plain">
            {report.assumptions.map(({ code, text }) => (
              <li key={code + text}>{sentence(text)}</li>
            ))}
          </ul>
        </section>
        <section class="mind">
          <h3>Cautions</h3>
          <ul class="plain">
            {report.cautions.map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
          </ul>
        </section>
      </article>
    </>
  );
}

const ruleName = (rule: string): string => (rule in RULES ? RULES[rule as keyof typeof RULES][0] : rule);

function Books({ report }: { report: ClearanceReport }) {
  return (
    <>
      <ul class="plain books">
        {report.specifications.map((book) => (
          <li key={book.id}>
            <strong>{book.id}</strong>: {book.provenance}; {BOOKS[book.applicability] ?? book.applicability}.
            Intake {book.intake}. Exhaust {book.exhaust}.
          </li>
        ))}
      </ul>
      {report.disagreements.length > 0 && (
        <>
          <p>
            <strong>The books disagree</strong>
          </p>
          <ul class="plain">
            {report.disagreements.map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}

function ValveTable({ report, shown }: { report: ClearanceReport; shown: Shown }) {
  if (report.valves.length === 0) return <p>No valve is read yet.</p>;
  const several = report.valves.some((valve) => valve.judged.length > 1);
  return (
    <div class="scroll" role="region" aria-label="Valves" tabIndex={0}>
      <table class="cards">
        <thead>
          <tr>
            <th scope="col">Valve</th>
            <th scope="col">Leaves</th>
            {several && <th scope="col">Book</th>}
            <th scope="col">Gap, corrected</th>
            <th scope="col">Verdict</th>
            <th scope="col">How sure</th>
            <th scope="col" class="todo">
              To do
            </th>
          </tr>
        </thead>
        <tbody>
          {report.valves.map((valve) => (
            <Rows key={valve.name} valve={valve} several={several} shown={shown} />
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Rows({ valve, several, shown }: { valve: ValveReport; several: boolean; shown: Shown }) {
  const count = Math.max(valve.judged.length, 1);
  const name = (
    <>
      <th scope="row" rowSpan={count}>
        {valve.name.replace(/^cylinder /, "")}
      </th>
      <td rowSpan={count} class="leaves" data-label="Leaves">
        {valve.reading}
      </td>
    </>
  );
  if (valve.judged.length === 0) {
    return (
      <tr>
        {name}
        <td colSpan={several ? 5 : 4}>no book applies</td>
      </tr>
    );
  }
  return (
    <>
      {valve.judged.map((judged, i) => {
        const { below, in_band, above } = judged.probabilities;
        const most = { below, in_band, above, cannot_say: in_band }[judged.verdict];
        return (
          <tr key={judged.specification}>
            {i === 0 && name}
            {several && <td data-label="Book">{judged.specification}</td>}
            <td class="number" data-label="Gap, corrected">
              {gap(judged.low, judged.high, shown)}
            </td>
            <td data-label="">
              <Sign verdict={judged.verdict} />
            </td>
            <td data-label="How sure">
              {chance(most)}
              {judged.verdict === "cannot_say" && " in band"}
            </td>
            <td class="todo" data-label="To do">
              {judged.advice.text}
            </td>
          </tr>
        );
      })}
    </>
  );
}
