// The contacts: gap and dwell, what to set, and what that does to the spark.

import { asText, at } from "../draft";
import { GroupFaults, Line, Pick, type Sheet } from "../field";
import type { AnyReport } from "../kernel";
import { Advice, Measured, Texts } from "./told";
import type { CardProps } from "./view";

const PLACE = "/ignition/contacts";

export function ContactsCard({ sheet, report, unit }: CardProps) {
  return (
    <>
      <ContactsFound report={report} />
      <div class="fields">
        <Pick
          sheet={sheet}
          at={`${PLACE}/look`}
          label="Faces of the contacts"
          choices={[
            ["", "not said"],
            ["new", "new"],
            ["worn_flat", "used, flat and parallel"],
            ["pitted", "a crater on one, a peak on the other"],
          ]}
        />
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
        <Felt sheet={sheet} unit={unit} />
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

/** What leaves said, as the kernel writes it: `0.35 mm goes, 0.40 mm does not`. */
const SAID = /^(?:(.+?) goes)?(?:, )?(?:(.+?) does not(?: go)?)?$/;

/** A reading of leaves: what goes in, and what does not. */
function Felt({ sheet, unit }: { sheet: Sheet; unit: string }) {
  const place = `${PLACE}/gap`;
  const text = asText(at(sheet.document, place));
  const said = SAID.exec(text);
  if (!said) return <Line sheet={sheet} at={place} label="What the leaves said" kind="text" />;
  const [, goes = "", refuses = ""] = said;
  const write = (goes: string, refuses: string) => {
    const both = `${goes} goes, ${refuses} does not`;
    const one = goes ? `${goes} goes` : refuses && `${refuses} does not go`;
    sheet.write(place, (goes && refuses ? both : one) || undefined);
  };
  const leaves: Sheet = {
    ...sheet,
    document: { [FELT]: { goes, refuses } },
    problems: sheet.problems
      .filter((problem) => problem.place === place)
      .map((problem) => ({ ...problem, place: `/${FELT}/refuses` })),
    write: (pointer, value) =>
      pointer.endsWith("goes") ? write(asText(value), refuses) : write(goes, asText(value)),
  };
  return (
    <div class="fields narrow">
      <Line sheet={leaves} at={`/${FELT}/goes`} label="Thickest leaf that goes in" unit={unit} />
      <Line sheet={leaves} at={`/${FELT}/refuses`} label="Thinnest that does not" unit={unit} />
    </div>
  );
}

const FELT = "contact-leaves";
