// Timing: where the spark comes, and how far the body turns.

import { asText, at } from "../draft";
import { Line, Pick, type Sheet } from "../field";
import type { AnyReport } from "../kernel";
import { BTDC, HOSES } from "./lists";
import { Advice, Measured, Texts } from "./told";
import type { CardProps } from "../steps/view";

export const TIMING = "/ignition/timing";

export function TimingCard({ sheet, report }: CardProps) {
  return (
    <>
      <TimingFound report={report} />
      <fieldset class="group">
        <legend>What the mark showed</legend>
        <div class="fields narrow">
          <Line sheet={sheet} at={`${TIMING}/reading/read`} label="Read" unit={BTDC} />
          <Line sheet={sheet} at={`${TIMING}/reading/uncertainty`} label="±" unit="deg" />
          <Line
            sheet={sheet}
            at={`${TIMING}/reading/lamp_delay_us`}
            label="Lamp late by, microseconds"
            kind="number"
          />
        </div>
        <Running sheet={sheet} place={`${TIMING}/reading/running`} what="It was read" />
      </fieldset>
      <fieldset class="group">
        <legend>What the book prints</legend>
        <div class="fields narrow">
          <Line sheet={sheet} at={`${TIMING}/limits/from`} label="Least" unit={BTDC} />
          <Line sheet={sheet} at={`${TIMING}/limits/to`} label="Most" unit={BTDC} />
          <Line sheet={sheet} at={`${TIMING}/set_to`} label="Set to" unit={BTDC} />
        </div>
        <Running sheet={sheet} place={`${TIMING}/printed_for`} what="Printed for the engine" />
      </fieldset>
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
  const own: Sheet = {
    ...sheet,
    document: { runs: runs ? "runs" : "" },
    problems: [],
    write: (_, value) => sheet.write(place, value ? { speed: "" } : undefined),
    form: place,
  };
  return (
    <>
      <Pick
        sheet={own}
        at="/runs"
        label={what}
        choices={[
          ["", "standing"],
          ["runs", "running"],
        ]}
      />
      {runs && (
        <div class="fields narrow">
          <Line sheet={sheet} at={`${place}/speed`} label="Speed" unit="rpm" />
          <Line sheet={sheet} at={`${place}/speed_uncertainty`} label="±" unit="rpm" />
          <Pick
            sheet={sheet}
            at={`${place}/vacuum_hose`}
            label="Vacuum hose"
            choices={[["", "choose …"], ...HOSES]}
          />
          {hose === "connected" && (
            <Line sheet={sheet} at={`${place}/vacuum`} label="Vacuum at the capsule" unit="inHg" />
          )}
        </div>
      )}
    </>
  );
}
