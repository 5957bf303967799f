// Advance with speed and vacuum: what the book prints at each speed, what was read, and what may be wrong.

import { Group, Rows } from "../fields";
import type { AnyReport } from "../kernel";
import { portion, sentence } from "../words";
import { AdvanceCurve } from "./curve";
import { BTDC } from "./lists";
import { Printed } from "./printed";
import { TIMING } from "./timing";
import { Advice, Measured } from "./told";
import type { CardProps } from "../steps/view";

const READ = `${TIMING}/curve`;

const begun = (vacuum_hose: string) => ({ read: "", running: { speed: "", vacuum_hose } });

export function AdvanceCard({ sheet, report }: CardProps) {
  return (
    <>
      <AdvanceFound report={report} />
      <Group title="What was read at several speeds">
        <Rows
          sheet={sheet}
          list={READ}
          item={(number) => `reading ${number}`}
          of={(number) => [
            ["running/speed", `Reading ${number}, at`, "rpm"],
            ["read", "Read", BTDC],
            ["uncertainty", "±", "deg"],
          ]}
          add={[
            ["Add a reading, hose off and plugged", begun("plugged")],
            ["Add a reading, no vacuum capsule", begun("not_fitted")],
          ]}
        />
      </Group>
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
