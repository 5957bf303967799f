// Advance with speed and vacuum: what the book prints at each speed, what was read, and what may be wrong.

import { at } from "../draft";
import { GroupFaults, Line } from "../field";
import type { AnyReport } from "../kernel";
import { portion, sentence } from "../words";
import { AdvanceCurve } from "./curve";
import { BTDC, Out } from "./lists";
import { Printed } from "./printed";
import { TIMING } from "./timing";
import { Advice, Measured } from "./told";
import type { CardProps } from "../steps/view";

const READ = `${TIMING}/curve`;

export function AdvanceCard({ sheet, report }: CardProps) {
  const rows = (at(sheet.document, READ) ?? []) as unknown[];
  const add = (vacuum_hose: string) =>
    sheet.write(READ, [...rows, { read: "", running: { speed: "", vacuum_hose } }]);
  return (
    <>
      <AdvanceFound report={report} />
      <fieldset class="group">
        <legend>What was read at several speeds</legend>
        {rows.map((_, i) => (
          <div class="fields narrow part" key={i}>
            <Line sheet={sheet} at={`${READ}/${i}/running/speed`} label={`Reading ${i + 1}, at`} unit="rpm" />
            <Line sheet={sheet} at={`${READ}/${i}/read`} label="Read" unit={BTDC} />
            <Line sheet={sheet} at={`${READ}/${i}/uncertainty`} label="±" unit="deg" />
            <Out sheet={sheet} list={READ} rows={rows} i={i} name={`reading ${i + 1}`} />
          </div>
        ))}
        <GroupFaults sheet={sheet} places={[READ]} />
        <div class="row">
          <button type="button" onClick={() => add("plugged")}>
            Add a reading, hose off and plugged
          </button>
          <button type="button" onClick={() => add("not_fitted")}>
            Add a reading, no vacuum capsule
          </button>
        </div>
      </fieldset>
      <Printed sheet={sheet} book={`${TIMING}/centrifugal`} by="speed" unit="rpm" />
      <Printed sheet={sheet} book={`${TIMING}/vacuum`} by="vacuum" unit="inHg" />
    </>
  );
}

export function AdvanceFound({ report }: { report: AnyReport | null }) {
  const found = report?.ignition?.timing?.curve;
  if (!found) return null;
  return (
    <section class="answer" aria-label="Advance: what was found">
      <p>
        <strong>{sentence(found.summary)}</strong>
      </p>
      <AdvanceCurve found={found} />
      <Advice advice={found.advice} />
      {found.rows.map(({ speed, judged }, i) => (
        <Measured key={i} of={`${Math.round(speed.rpm)} rpm`} judged={judged} />
      ))}
      <ul class="plain">
        {found.fitted.map((text) => (
          <li key={text}>{sentence(text)}</li>
        ))}
        {/* Where they are to be looked for, the advice has named them. */}
        {found.advice.action !== "find_cause" &&
          found.causes.map(({ cause, probability, text }) => (
            <li key={cause}>
              {portion(probability)}: {sentence(text)}
            </li>
          ))}
      </ul>
    </section>
  );
}
