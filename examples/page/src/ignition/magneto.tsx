// Magnetos: where each opens its contacts and where it sparks, two against each other, each alone on the engine.

import { at } from "../draft";
import { GroupFaults, Line, Pick, type Sheet } from "../field";
import type { AnyReport } from "../kernel";
import { sentence } from "../words";
import { Felt } from "./contact-leaves";
import { BTDC, FACES, Out } from "./lists";
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
      <fieldset class="group">
        <legend>What the book prints</legend>
        <div class="fields narrow">
          <Line sheet={sheet} at={`${PLACE}/limits/from`} label="Spark, least" unit={BTDC} />
          <Line sheet={sheet} at={`${PLACE}/limits/to`} label="Spark, most" unit={BTDC} />
          <Line sheet={sheet} at={`${PLACE}/most_apart`} label="Two sparks apart, at most" unit="deg" />
          <Line sheet={sheet} at={`${PLACE}/e_gap_limits/from`} label="Open past neutral, min" unit="deg" />
          <Line sheet={sheet} at={`${PLACE}/e_gap_limits/to`} label="Open past neutral, max" unit="deg" />
          <Line sheet={sheet} at={`${PLACE}/gap_limits/from`} label="Contact gap, min" unit={unit} />
          <Line sheet={sheet} at={`${PLACE}/gap_limits/to`} label="Contact gap, max" unit={unit} />
        </div>
        <GroupFaults
          sheet={sheet}
          places={[
            PLACE,
            LIST,
            ...["limits", "e_gap_limits", "gap_limits"].map((part) => `${PLACE}/${part}`),
          ]}
        />
      </fieldset>
      <fieldset class="group">
        <legend>Each magneto alone, engine running</legend>
        <div class="fields narrow">
          <Line sheet={sheet} at={`${PLACE}/drop/both`} label="On both" unit="rpm" />
          <Line sheet={sheet} at={`${PLACE}/drop/left`} label="On the left alone" unit="rpm" />
          <Line sheet={sheet} at={`${PLACE}/drop/right`} label="On the right alone" unit="rpm" />
          <Line sheet={sheet} at={`${PLACE}/drop/uncertainty`} label="±" unit="rpm" />
          <Line sheet={sheet} at={`${PLACE}/drop/most_drop`} label="Book: drop, at most" unit="rpm" />
          <Line
            sheet={sheet}
            at={`${PLACE}/drop/most_difference`}
            label="Book: drops differ by, at most"
            unit="rpm"
          />
        </div>
        <GroupFaults sheet={sheet} places={[`${PLACE}/drop`]} />
      </fieldset>
    </>
  );
}

/** One magneto, as read. */
function One({ sheet, rows, i, unit }: { sheet: Sheet; rows: readonly unknown[]; i: number; unit: string }) {
  const place = `${LIST}/${i}`;
  return (
    <fieldset class="group">
      <legend>Magneto {i + 1}</legend>
      <div class="fields narrow">
        <Pick
          sheet={sheet}
          at={`${place}/which`}
          label="Which, as the switch names it"
          choices={[
            ["", "the only one"],
            ["left", "left"],
            ["right", "right"],
          ]}
        />
        <Pick
          sheet={sheet}
          at={`${place}/rotor`}
          label="Rotor turns, seen from where the body is turned"
          choices={[
            ["", "not said"],
            ["clockwise", "clockwise"],
            ["anticlockwise", "anticlockwise"],
          ]}
        />
        <Line
          sheet={sheet}
          at={`${place}/sparks_per_turn`}
          label="Sparks a turn of its rotor"
          kind="number"
        />
        <Line
          sheet={sheet}
          at={`${place}/turns_per_crank_turn`}
          label="Its turns for one of the crank"
          kind="number"
        />
        <Line sheet={sheet} at={`${place}/e_gap`} label="Contacts open, past neutral" unit="deg" />
        <Line sheet={sheet} at={`${place}/e_gap_uncertainty`} label="± past neutral" unit="deg" />
        <Pick sheet={sheet} at={`${place}/look`} label="Faces of the contacts" choices={FACES} />
      </div>
      <Felt sheet={sheet} place={`${place}/gap`} unit={unit} />
      <div class="fields narrow">
        <Line sheet={sheet} at={`${place}/sparks_at`} label="Sparks at, read at the crank" unit={BTDC} />
        <Line sheet={sheet} at={`${place}/uncertainty`} label="± at the crank" unit="deg" />
        <Line
          sheet={sheet}
          at={`${place}/impulse_lag`}
          label="Lag of its impulse coupling, at the magneto"
          unit="deg"
        />
      </div>
      <GroupFaults sheet={sheet} places={[place]} />
      <Out sheet={sheet} list={LIST} rows={rows} i={i} name={`magneto ${i + 1}`} />
    </fieldset>
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
