// The contacts: gap and dwell, what to set, and what that does to the spark.

import { GroupFaults } from "../field";
import { Choose, Fields, Group } from "../fields";
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
        <Choose sheet={sheet} at={`${PLACE}/look`} label="Faces of the contacts" choices={FACES} />
      </div>
      <Group title="Dwell">
        <Fields
          sheet={sheet}
          at={PLACE}
          of={[
            ["dwell/shows", "Meter shows at idle", "deg"],
            ["dwell/uncertainty", "±", "deg"],
            ["dwell/scale", "Meter set for cylinders", "number"],
            ["dwell_limits/from", "Book, min", "deg"],
            ["dwell_limits/to", "Book, max", "deg"],
            ["dwell_faster/shows", "At 1500 rpm, vacuum off", "deg"],
          ]}
        />
        <p class="hint">In degrees, or with % behind the number.</p>
      </Group>
      <Group title="Gap on the highest point of a lobe">
        <Felt sheet={sheet} place={`${PLACE}/gap`} unit={unit} />
        <Fields
          sheet={sheet}
          at={`${PLACE}/gap_limits`}
          of={[
            ["from", "Book, min", unit],
            ["to", "Book, max", unit],
          ]}
        />
      </Group>
      <Group title="A gap and its dwell, as printed">
        <Fields
          sheet={sheet}
          at={PLACE}
          of={[
            ["pair/gap", "Gap", unit],
            ["pair/dwell", "Dwell", "deg"],
            ["second_pair/gap", "Another gap", unit],
            ["second_pair/dwell", "Its dwell", "deg"],
            ["opening_share", "Share of a change that falls where they open, 0 to 1", "number"],
          ]}
        />
        <p class="hint">
          Another pair tests the first. Empty share: a half, as of a lobe alike on both sides.
        </p>
        <GroupFaults
          sheet={sheet}
          places={[`${PLACE}/pair`, `${PLACE}/second_pair`, `${PLACE}/opening_share`]}
        />
      </Group>
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
