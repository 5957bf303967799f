// Timing: where the spark comes, and how far the body turns.

import { asText, at } from "../draft";
import type { Sheet } from "../field";
import { Choose, Fields, Group, standIn } from "../fields";
import type { AnyReport } from "../kernel";
import { BTDC, HOSES } from "./lists";
import { Advice, Measured, Texts } from "./told";
import type { CardProps } from "../steps/view";

export const TIMING = "/ignition/timing";

export function TimingCard({ sheet, report }: CardProps) {
  return (
    <>
      <TimingFound report={report} />
      <Group title="What the mark showed">
        <Fields
          sheet={sheet}
          at={`${TIMING}/reading`}
          of={[
            ["read", "Read", BTDC],
            ["uncertainty", "±", "deg"],
            ["lamp_delay_us", "Lamp late by, microseconds", "number"],
          ]}
        />
        <Running sheet={sheet} place={`${TIMING}/reading/running`} what="It was read" />
      </Group>
      <Group title="What the book prints">
        <Fields
          sheet={sheet}
          at={TIMING}
          of={[
            ["limits/from", "Least", BTDC],
            ["limits/to", "Most", BTDC],
            ["set_to", "Set to", BTDC],
          ]}
        />
        <Running sheet={sheet} place={`${TIMING}/printed_for`} what="Printed for the engine" />
      </Group>
    </>
  );
}

export function TimingFound({ report }: { report: AnyReport | null }) {
  const found = report?.ignition?.timing;
  if (!found) return null;
  return (
    <section class="answer" aria-label="Timing: what was found">
      <Measured of="Spark" judged={found.found} />
      <Advice advice={found.advice} />
      <Texts texts={found.slips.map(({ text }) => text)} />
    </section>
  );
}

/** Whether the engine stood or ran; how fast, and with the hose how. */
function Running({ sheet, place, what }: { sheet: Sheet; place: string; what: string }) {
  const runs = at(sheet.document, place) !== undefined;
  const hose = asText(at(sheet.document, `${place}/vacuum_hose`));
  const write = (value: unknown) => sheet.write(place, value ? { speed: "" } : undefined);
  return (
    <>
      <Choose
        sheet={standIn(sheet, place, "runs", runs ? "runs" : "", write)}
        at="/runs"
        label={what}
        choices={{ "": "standing", runs: "running" }}
      />
      {runs && (
        <Fields
          sheet={sheet}
          at={place}
          of={[
            ["speed", "Speed", "rpm"],
            ["speed_uncertainty", "±", "rpm"],
            ["vacuum_hose", "Vacuum hose", [["", "choose …"], ...HOSES]],
            hose === "connected" && ["vacuum", "Vacuum at the capsule", "inHg"],
          ]}
        />
      )}
    </>
  );
}
