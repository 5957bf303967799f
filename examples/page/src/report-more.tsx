// Parts of a report that only some jobs have: where the crank stands, what the readings say together,
// which shim goes where, how long to wait.

import { Lines } from "./lines";
import { Sign } from "./answer";
import { gap, type Shown } from "./gaps";
import type { ClearanceReport, ShimPlanReport } from "./kernel";
import { chance, degrees, sentence, short } from "./words";

interface Props {
  report: ClearanceReport;
  shown: Shown;
}

export function More({ report, shown }: Props) {
  const { crank_check, diagnosis, cooling, locking, comparisons } = report;
  const warmth = [
    ...comparisons.map(({ text }) => text),
    ...(cooling?.waits.map((wait) => `${wait.specification} ${wait.kind}: ${wait.text}`) ?? []),
    ...(locking ? [locking.text] : []),
  ];
  return (
    <>
      {crank_check && (
        <Part title="Where the crank stands" lines={[crank_check.text, ...crank_check.contradictions]}>
          {crank_check.next && <li>Feel next: {crank_check.next.valve}.</li>}
        </Part>
      )}
      {report.shim_plans.map((plan) => (
        <Shims key={plan.specification} plan={plan} shown={shown} />
      ))}
      {diagnosis && (
        <Part title="All readings together" lines={[diagnosis.text, ...diagnosis.cannot_tell]}>
          {diagnosis.inspections.map(({ valve, looser, look_at }) => (
            <li key={valve}>
              {sentence(
                `${valve} reads ${looser ? "looser" : "tighter"} than the rest: look at ${look_at.join(", ")}`,
              )}
            </li>
          ))}
        </Part>
      )}
      <Part title="Temperature and lock nuts" lines={warmth} />
    </>
  );
}

interface PartProps {
  title: string;
  lines: readonly string[];
  children?: preact.ComponentChildren;
}

function Part({ title, lines, children }: PartProps) {
  if (lines.length === 0) return null;
  return (
    <section>
      <h3>{title}</h3>
      <ul class="plain">
        {lines.map((line) => (
          <li key={line}>{sentence(line)}</li>
        ))}
        {children}
      </ul>
    </section>
  );
}

function Shims({ plan, shown }: { plan: ShimPlanReport; shown: Shown }) {
  const from = (one: ShimPlanReport["moves"][number]["from"]): string => {
    if ("valve" in one) return `out of ${one.valve}`;
    return "stock" in one ? `from stock, marked ${one.stock.text}` : "to be bought";
  };
  const place = (deg: number) => (deg < 0 ? `${degrees(-deg)} before` : `${degrees(deg)} after`);
  const where = plan.stops.map(({ turn, work }, i) => {
    const visits = work.map(
      (one) =>
        `${short(one.valve)} ${place(one.after_firing_tdc.deg)} firing TDC no. ${one.cylinder}, ± ${degrees(one.margin.deg)}`,
    );
    return `Change ${i + 1}: turn ${degrees(turn.deg)} on; ${visits.join("; ")}`;
  });
  const rest = [
    ...plan.cautions,
    ...where,
    plan.keep.length > 0 && `Keep their shim: ${plan.keep.join(", ")}`,
    plan.left_over.length > 0 &&
      `Left over: ${plan.left_over.map((one) => `${gap(one.thickness, one.thickness, shown)} out of ${one.valve}`).join(", ")}`,
    ...plan.cannot.map(({ valve, reason }) => `${valve}: ${reason}`),
  ].filter((line) => line !== false);
  return (
    <section>
      <h3>
        Which shim goes where <small>(by {plan.specification}, in working order)</small>
      </h3>
      {plan.moves.length > 0 && (
        <div class="scroll" role="region" aria-label={`Shims by ${plan.specification}`} tabIndex={0}>
          <table class="cards">
            <thead>
              <tr>
                <th scope="col">Valve</th>
                <th scope="col">Out</th>
                <th scope="col">In</th>
                <th scope="col">From where</th>
                <th scope="col">Gap to expect</th>
                <th scope="col">Verdict to expect</th>
              </tr>
            </thead>
            <tbody>
              {plan.moves.map((move) => (
                <tr key={move.valve}>
                  <th scope="row">{move.valve.replace(/^cylinder /, "")}</th>
                  <td data-label="Out" class="number">
                    {gap(move.old, move.old, shown)}
                  </td>
                  <td data-label="In" class="number">
                    {gap(move.new, move.new, shown)}
                  </td>
                  <td data-label="From">{from(move.from)}</td>
                  <td data-label="Gap to expect" class="number">
                    {gap(move.low, move.high, shown)}
                  </td>
                  <td data-label="">
                    <Sign verdict={move.verdict} /> {chance(move.probabilities.in_band)} in limits
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      <Lines look="plain" lines={rest} />
    </section>
  );
}
