// The advance that a book allows at a speed, and a strobe reading taken back to what the book prints.

import { GroupFaults } from "../field";
import { Fields, Group } from "../fields";
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
      <Group
        title="What the lamp showed"
        sheet={sheet}
        at={`${PLACE}/reading`}
        of={[
          ["read", "Read", BTDC],
          ["uncertainty", "± mark", "deg"],
          ["speed", "At", "rpm"],
          ["speed_uncertainty", "± speed", "rpm"],
          ["vacuum_hose", "Vacuum hose", [["", "choose …"], ...HOSES]],
          ["lamp_delay_us", "Lamp late by, microseconds", "number"],
        ]}
      />
      <Group
        title="The book's ignition point"
        sheet={sheet}
        at={PLACE}
        of={[
          ["limits/from", "Least", BTDC],
          ["limits/to", "Most", BTDC],
          ["printed_for", "Printed for", "rpm", "Empty: for the engine standing."],
        ]}
      />
      <Printed sheet={sheet} book={`${PLACE}/centrifugal`} by="speed" unit="rpm" />
      <Fields
        sheet={sheet}
        at={PLACE}
        of={[
          ["crank_turns", "Turns of the crank for one of the distributor", "number"],
          ["speed", "Say the book's advance at", "rpm"],
        ]}
      />
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
