// The advance that a book allows at a speed, and a strobe reading taken back to what the book prints.

import { GroupFaults, Line, Pick } from "../field";
import { BTDC, HOSES } from "../ignition/lists";
import { Printed } from "../ignition/printed";
import { fixed, Texts } from "../ignition/told";
import { doubt, point, Verdict } from "./told";
import type { FormProps } from "./view";

const PLACE = "/advance";

export function StrobeForm({ sheet, report }: FormProps) {
  return (
    <>
      <StrobeAnswer report={report} />
      <fieldset class="group">
        <legend>What the lamp showed</legend>
        <div class="fields narrow">
          <Line sheet={sheet} at={`${PLACE}/reading/read`} label="Read" unit={BTDC} />
          <Line sheet={sheet} at={`${PLACE}/reading/uncertainty`} label="± mark" unit="deg" />
          <Line sheet={sheet} at={`${PLACE}/reading/speed`} label="At" unit="rpm" />
          <Line sheet={sheet} at={`${PLACE}/reading/speed_uncertainty`} label="± speed" unit="rpm" />
          <Pick
            sheet={sheet}
            at={`${PLACE}/reading/vacuum_hose`}
            label="Vacuum hose"
            choices={[["", "choose …"], ...HOSES]}
          />
          <Line
            sheet={sheet}
            at={`${PLACE}/reading/lamp_delay_us`}
            label="Lamp late by, microseconds"
            kind="number"
          />
        </div>
      </fieldset>
      <fieldset class="group">
        <legend>The book's ignition point</legend>
        <div class="fields narrow">
          <Line sheet={sheet} at={`${PLACE}/limits/from`} label="Least" unit={BTDC} />
          <Line sheet={sheet} at={`${PLACE}/limits/to`} label="Most" unit={BTDC} />
          <Line
            sheet={sheet}
            at={`${PLACE}/printed_for`}
            label="Printed for"
            unit="rpm"
            hint="Empty: for the engine standing."
          />
        </div>
      </fieldset>
      <Printed sheet={sheet} book={`${PLACE}/centrifugal`} by="speed" unit="rpm" />
      <div class="fields narrow">
        <Line
          sheet={sheet}
          at={`${PLACE}/crank_turns`}
          label="Turns of the crank for one of the distributor"
          kind="number"
        />
        <Line sheet={sheet} at={`${PLACE}/speed`} label="Say the book's advance at" unit="rpm" />
      </div>
      <GroupFaults
        sheet={sheet}
        places={[PLACE, ...["reading", "limits"].map((part) => `${PLACE}/${part}`)]}
      />
    </>
  );
}

function StrobeAnswer({ report }: { report: FormProps["report"] }) {
  const found = report?.advance;
  if (!found) return null;
  const { point: read, allowed } = found;
  return (
    <section class="answer" aria-label="Advance: what was found">
      {read && (
        <>
          <Verdict of="Spark" judged={read.judged} below="Too late" above="Too early" />
          <Texts texts={[pointText(read), moveText(read)]} />
        </>
      )}
      {allowed && (
        <p class="facts-line">
          Advance by the book at the speed asked for: {fixed(allowed.least.deg, 1)} to{" "}
          {fixed(allowed.most.deg, 1)} deg.
        </p>
      )}
    </section>
  );
}

type Read = NonNullable<NonNullable<NonNullable<FormProps["report"]>["advance"]>["point"]>;

function pointText({ low, high, uncertainty_deg: u }: Read): string {
  const [from, to] = [point(low), point(high)];
  return `at what the book prints it is ${from === to ? from : `${from} to ${to}`}, ${doubt(`${fixed(u, 2)} deg`)}`;
}

const moveText = ({ to_set: { deg } }: Read): string =>
  `where to set it is ${fixed(Math.abs(deg), 1)} deg ${deg < 0 ? "later" : "earlier"}; the contacts come first, they move it`;
