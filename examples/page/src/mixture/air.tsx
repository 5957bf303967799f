// The air around: what jets, gas and gauge lean on.

import { asText, at } from "../draft";
import { GroupFaults } from "../field";
import { Fields } from "../fields";
import type { AnyReport } from "../kernel";
import type { CardProps } from "../steps/view";
import { sentence } from "../words";

const PLACE = "/mixture/air";

/** A barometer typed without a unit. */
const HECTOPASCAL = "hPa";

export const AirCard = ({ sheet, report, unit, warmth }: CardProps) => (
  <>
    <AirFound report={report} />
    <AirForm sheet={sheet} place={PLACE} unit={unit} warmth={warmth} />
    <p class="hint">
      Barometer and temperature; with a barometer set to sea level the height, too. Or the height alone. What
      airfields and living rooms show is set to sea level, what a tester shows is of this place.
    </p>
  </>
);

type AirFormProps = Pick<CardProps, "sheet" | "unit" | "warmth"> & { place: string };

/** The air of a place: that around, or that for which jets were chosen. */
export function AirForm({ sheet, place, unit, warmth }: AirFormProps) {
  const isRead = asText(at(sheet.document, `${place}/barometer/shows`)) !== "";
  return (
    <>
      <Fields
        sheet={sheet}
        at={place}
        of={[
          ["barometer/shows", "Barometer shows", unit === "in" ? "inHg" : HECTOPASCAL],
          [
            "barometer/set_to",
            "It is set to",
            {
              "": isRead ? "choose …" : "not read",
              sea_level: "sea level: weather report",
              place: "this place: mercury column",
            },
          ],
          ["temperature", "Temperature of the intake air", warmth],
          ["humidity", "Humidity", "%"],
          ["altitude", "Height of the place", unit === "in" ? "ft" : "m"],
        ]}
      />
      <GroupFaults sheet={sheet} places={[place, `${place}/barometer`]} />
    </>
  );
}

const WIDTH = 320;

export function AirFound({ report }: { report: AnyReport | null }) {
  const found = report?.mixture?.air;
  if (!found) return null;
  // Sea level stands at four fifths: air in a cold valley is denser than that.
  const full = 0.8 * WIDTH;
  return (
    <section class="answer" aria-label="Air: what was found">
      <svg class="picture" viewBox={`0 0 ${WIDTH} 46`} aria-hidden="true">
        <path class="zone band" d={`M0 20h${full}v22h${-full}z`} />
        <path class="shape" d={`M0 25h${Math.min(found.ratio * full, WIDTH)}v12H0z`} />
        <path class="edge" d={`M${full} 16v30`} />
        <text x={full} y="12" text-anchor="middle">
          sea level
        </text>
      </svg>
      <p class="do">{sentence(found.text)}</p>
      {found.doubt && <p class="notice">{sentence(found.doubt)}</p>}
    </section>
  );
}
