// Dwell by a meter, in degrees or per cent, against the book; and the gap that goes with it.

import { GroupFaults } from "../field";
import { Fields, Group } from "../fields";
import { one } from "../gaps";
import { fixed, Texts } from "../ignition/told";
import { portion } from "../words";
import { doubt, Verdict } from "./told";
import type { FormProps } from "./view";

const PLACE = "/dwell";

export function DwellForm({ sheet, report, unit }: FormProps) {
  const found = report?.dwell;
  const dwell = ({ value, uncertainty }: { value: { deg: number }; uncertainty: number }) =>
    `${fixed(value.deg, 1)} deg, ${doubt(`${fixed(uncertainty, 2)} deg`)}`;
  return (
    <>
      {found && (
        <section class="answer" aria-label="Dwell: what was found">
          <Verdict of="Dwell" judged={found.judged} below="Too small" above="Too large" />
          <Texts
            texts={[
              found.reading && `dwell ${dwell(found.reading)}`,
              found.percent != null && `${fixed(found.percent, 1)} per cent of the time closed`,
              found.on_scale != null && `on the other scale it shows ${fixed(found.on_scale, 1)} deg`,
              ...found.other_scales.map(
                ({ scale, dwell: other, in_band }) =>
                  `if the meter stood on ${scale}: dwell ${dwell(other)}, in limits ${portion(in_band)}`,
              ),
              found.gap &&
                `the gap that goes with it: ${one(found.gap.value, unit)}, ${doubt(one({ mm: found.gap.uncertainty }, unit))}`,
              found.at_gap && `the dwell that goes with the gap: ${dwell(found.at_gap)}`,
            ].map((text) => text || undefined)}
          />
        </section>
      )}
      <Fields
        sheet={sheet}
        at={PLACE}
        of={[
          ["lobes", "Lobes of the cam", "number"],
          ["reading/shows", "Meter shows", "deg"],
          ["reading/uncertainty", "±", "deg"],
          ["reading/scale", "Meter set for cylinders", "number"],
          ["limits/from", "Book, min", "deg"],
          ["limits/to", "Book, max", "deg"],
          ["to_scale", "Say it for so many cylinders", "number"],
        ]}
      />
      <p class="hint">In degrees, or with % behind the number.</p>
      <Group
        title="A gap and its dwell, as printed"
        sheet={sheet}
        at={PLACE}
        of={[
          ["pair/gap", "Gap", unit],
          ["pair/dwell", "Dwell", "deg"],
          ["gap/is", "Dwell for a gap of", unit],
          ["gap/uncertainty", "± gap", unit],
        ]}
      />
      <GroupFaults
        sheet={sheet}
        places={[PLACE, ...["reading", "limits", "pair", "gap"].map((part) => `${PLACE}/${part}`)]}
      />
    </>
  );
}
