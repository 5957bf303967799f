// Dwell by a meter, in degrees or per cent, against the book; and the gap that goes with it.

import { GroupFaults, Line } from "../field";
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
      <div class="fields narrow">
        <Line sheet={sheet} at={`${PLACE}/lobes`} label="Lobes of the cam" kind="number" />
        <Line sheet={sheet} at={`${PLACE}/reading/shows`} label="Meter shows" unit="deg" />
        <Line sheet={sheet} at={`${PLACE}/reading/uncertainty`} label="±" unit="deg" />
        <Line sheet={sheet} at={`${PLACE}/reading/scale`} label="Meter set for cylinders" kind="number" />
        <Line sheet={sheet} at={`${PLACE}/limits/from`} label="Book, min" unit="deg" />
        <Line sheet={sheet} at={`${PLACE}/limits/to`} label="Book, max" unit="deg" />
        <Line sheet={sheet} at={`${PLACE}/to_scale`} label="Say it for so many cylinders" kind="number" />
      </div>
      <p class="hint">In degrees, or with % behind the number.</p>
      <fieldset class="group">
        <legend>A gap and its dwell, as printed</legend>
        <div class="fields narrow">
          <Line sheet={sheet} at={`${PLACE}/pair/gap`} label="Gap" unit={unit} />
          <Line sheet={sheet} at={`${PLACE}/pair/dwell`} label="Dwell" unit="deg" />
          <Line sheet={sheet} at={`${PLACE}/gap/is`} label="Dwell for a gap of" unit={unit} />
          <Line sheet={sheet} at={`${PLACE}/gap/uncertainty`} label="± gap" unit={unit} />
        </div>
      </fieldset>
      <GroupFaults
        sheet={sheet}
        places={[PLACE, ...["reading", "limits", "pair", "gap"].map((part) => `${PLACE}/${part}`)]}
      />
    </>
  );
}
