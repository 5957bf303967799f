// The contacts: gap and dwell, what to set, and what that does to the spark.

import { GroupFaults, Line, Pick } from "../field";
import type { AnyReport } from "../kernel";
import { Felt } from "./contact-leaves";
import { FACES } from "./lists";
import { Advice, Measured, Texts } from "./told";
import type { CardProps } from "../steps/view";

const PLACE = "/ignition/contacts";

export function ContactsCard({ sheet, report, unit }: CardProps) {
  return (
    <>
      <ContactsFound report={report} />
      <div class="fields">
        <Pick sheet={sheet} at={`${PLACE}/look`} label="Faces of the contacts" choices={FACES} />
      </div>
      <fieldset class="group">
        <legend>Dwell</legend>
        <div class="fields narrow">
          <Line sheet={sheet} at={`${PLACE}/dwell/shows`} label="Meter shows at idle" unit="deg" />
          <Line sheet={sheet} at={`${PLACE}/dwell/uncertainty`} label="±" unit="deg" />
          <Line sheet={sheet} at={`${PLACE}/dwell/scale`} label="Meter set for cylinders" kind="number" />
          <Line sheet={sheet} at={`${PLACE}/dwell_limits/from`} label="Book, min" unit="deg" />
          <Line sheet={sheet} at={`${PLACE}/dwell_limits/to`} label="Book, max" unit="deg" />
          <Line sheet={sheet} at={`${PLACE}/dwell_faster/shows`} label="At 1500 rpm, vacuum off" unit="deg" />
        </div>
        <p class="hint">In degrees, or with % behind the number.</p>
      </fieldset>
      <fieldset class="group">
        <legend>Gap on the highest point of a lobe</legend>
        <Felt sheet={sheet} place={`${PLACE}/gap`} unit={unit} />
        <div class="fields narrow">
          <Line sheet={sheet} at={`${PLACE}/gap_limits/from`} label="Book, min" unit={unit} />
          <Line sheet={sheet} at={`${PLACE}/gap_limits/to`} label="Book, max" unit={unit} />
        </div>
      </fieldset>
      <fieldset class="group">
        <legend>A gap and its dwell, as printed</legend>
        <div class="fields narrow">
          <Line sheet={sheet} at={`${PLACE}/pair/gap`} label="Gap" unit={unit} />
          <Line sheet={sheet} at={`${PLACE}/pair/dwell`} label="Dwell" unit="deg" />
          <Line sheet={sheet} at={`${PLACE}/second_pair/gap`} label="Another gap" unit={unit} />
          <Line sheet={sheet} at={`${PLACE}/second_pair/dwell`} label="Its dwell" unit="deg" />
          <Line
            sheet={sheet}
            at={`${PLACE}/opening_share`}
            label="Share of a change that falls where they open, 0 to 1"
            kind="number"
          />
        </div>
        <p class="hint">
          Another pair tests the first. Empty share: a half, as of a lobe alike on both sides.
        </p>
        <GroupFaults
          sheet={sheet}
          places={[`${PLACE}/pair`, `${PLACE}/second_pair`, `${PLACE}/opening_share`]}
        />
      </fieldset>
    </>
  );
}

export function ContactsFound({ report }: { report: AnyReport | null }) {
  const found = report?.ignition?.contacts;
  if (!found) return null;
  return (
    <section class="answer" aria-label="Contacts: what was found">
      <Measured of="Dwell" judged={found.dwell} />
      <Measured of="Gap" judged={found.gap} />
      <Measured of="Dwell with speed" judged={found.steady} />
      <Advice advice={found.advice} />
      <Texts texts={[found.spark?.text]} />
      <Texts
        texts={[...found.other_scales.map(({ text }) => text), found.leaf_against_dwell, found.second_pair]}
      />
    </section>
  );
}
