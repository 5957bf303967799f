// Magnetos: where each opens its contacts and where it sparks, two against each other, each alone on the engine.

import { at } from "../draft";
import { GroupFaults, type Sheet } from "../field";
import { Fields, Group, Out } from "../fields";
import type { AnyReport } from "../kernel";
import { sentence } from "../words";
import { Felt } from "./contact-leaves";
import { BTDC, FACES } from "./lists";
import { Advice, Measured, Texts } from "./told";
import type { CardProps } from "../steps/view";

const PLACE = "/ignition/magneto";
const LIST = `${PLACE}/magnetos`;

export function MagnetoCard({ sheet, report, unit }: CardProps) {
  const rows = (at(sheet.document, LIST) ?? []) as unknown[];
  return (
    <>
      <MagnetoFound report={report} />
      {rows.map((_, i) => (
        <One key={i} sheet={sheet} rows={rows} i={i} unit={unit} />
      ))}
      <button type="button" onClick={() => sheet.write(LIST, [...rows, {}])}>
        Add a magneto
      </button>
      <Group
        title="What the book prints"
        sheet={sheet}
        at={PLACE}
        of={[
          ["limits/from", "Spark, least", BTDC],
          ["limits/to", "Spark, most", BTDC],
          ["most_apart", "Two sparks apart, at most", "deg"],
          ["e_gap_limits/from", "Open past neutral, min", "deg"],
          ["e_gap_limits/to", "Open past neutral, max", "deg"],
          ["gap_limits/from", "Contact gap, min", unit],
          ["gap_limits/to", "Contact gap, max", unit],
        ]}
        faults={[PLACE, LIST, ...["limits", "e_gap_limits", "gap_limits"].map((part) => `${PLACE}/${part}`)]}
      />
      <Group
        title="Each magneto alone, engine running"
        sheet={sheet}
        at={`${PLACE}/drop`}
        of={[
          ["both", "On both", "rpm"],
          ["left", "On the left alone", "rpm"],
          ["right", "On the right alone", "rpm"],
          ["uncertainty", "±", "rpm"],
          ["most_drop", "Book: drop, at most", "rpm"],
          ["most_difference", "Book: drops differ by, at most", "rpm"],
        ]}
        faults={[`${PLACE}/drop`]}
      />
    </>
  );
}

/** One magneto, as read. */
function One({ sheet, rows, i, unit }: { sheet: Sheet; rows: readonly unknown[]; i: number; unit: string }) {
  const place = `${LIST}/${i}`;
  return (
    <Group title={`Magneto ${i + 1}`}>
      <Fields
        sheet={sheet}
        at={place}
        of={[
          ["which", "Which, as the switch names it", { "": "the only one", left: "left", right: "right" }],
          [
            "rotor",
            "Rotor turns, seen from where the body is turned",
            { "": "not said", clockwise: "clockwise", anticlockwise: "anticlockwise" },
          ],
          ["sparks_per_turn", "Sparks a turn of its rotor", "number"],
          ["turns_per_crank_turn", "Its turns for one of the crank", "number"],
          ["e_gap", "Contacts open, past neutral", "deg"],
          ["e_gap_uncertainty", "± past neutral", "deg"],
          ["look", "Faces of the contacts", FACES],
        ]}
      />
      <Felt sheet={sheet} place={`${place}/gap`} unit={unit} />
      <Fields
        sheet={sheet}
        at={place}
        of={[
          ["sparks_at", "Sparks at, read at the crank", BTDC],
          ["uncertainty", "± at the crank", "deg"],
          ["impulse_lag", "Lag of its impulse coupling, at the magneto", "deg"],
        ]}
      />
      <GroupFaults sheet={sheet} places={[place]} />
      <Out sheet={sheet} list={LIST} rows={rows} i={i} name={`magneto ${i + 1}`} />
    </Group>
  );
}

export function MagnetoFound({ report }: { report: AnyReport | null }) {
  const found = report?.ignition?.magneto;
  if (!found) return null;
  const { magnetos, apart, drop } = found;
  return (
    <section class="answer" aria-label="Magnetos: what was found">
      {magnetos.map(({ which, e_gap, gap, spark, impulse, advice }, i) => (
        <div key={i}>
          <p>
            <strong>{sentence(which ? `${which} magneto` : "magneto")}</strong>
          </p>
          <Measured of="Opens past neutral" judged={e_gap} />
          <Measured of="Contact gap" judged={gap} />
          <Measured of="Spark" judged={spark} />
          <Texts texts={[impulse]} />
          <Advice advice={advice} />
        </div>
      ))}
      {apart && (
        <>
          <Measured of="Two magnetos apart" judged={apart.judged} />
          <Advice advice={apart.advice} />
        </>
      )}
      {drop && (
        <>
          <p>
            <strong>Each magneto alone.</strong>
          </p>
          {drop.judged.length === 0 && <Texts texts={drop.drops} />}
          {drop.judged.map((judged, i) => (
            <Measured key={i} of="Drop" judged={judged} />
          ))}
          <Measured of="Difference of the drops" judged={drop.difference} />
          <Advice advice={drop.advice} />
        </>
      )}
    </section>
  );
}
