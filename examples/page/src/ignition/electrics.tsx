// Windings, ballast and leads, the condenser, the coil at speed and the plugs.

import { at } from "../draft";
import { GroupFaults, Line, Pick, type Sheet } from "../field";
import type { ElectricsReport } from "../kernel";
import { Out, truths } from "./lists";
import { Advice, Measured, Texts } from "./told";
import type { CardProps } from "./view";

const PLACE = "/ignition/electrics";
const RESISTORS = `${PLACE}/resistors`;

export function ElectricsCard({ sheet, report, warmth, unit }: CardProps) {
  const found = report?.ignition?.electrics;
  return (
    <>
      {found && <Found found={found} />}
      <Resistors sheet={sheet} warmth={warmth} />
      <fieldset class="group">
        <legend>Condenser</legend>
        <div class="fields narrow">
          <Line sheet={sheet} at={`${PLACE}/condenser/reads`} label="Reads" unit="uF" />
          <Line sheet={sheet} at={`${PLACE}/condenser/uncertainty`} label="±" unit="uF" />
          <Line sheet={sheet} at={`${PLACE}/condenser/limits/from`} label="Book, min" unit="uF" />
          <Line sheet={sheet} at={`${PLACE}/condenser/limits/to`} label="Book, max" unit="uF" />
          <Pick
            sheet={sheet}
            at={`${PLACE}/condenser/build_up`}
            label="A peak has grown"
            choices={[
              ["", "not said"],
              ["on_arm", "on the moving arm"],
              ["on_fixed", "on the fixed contact"],
            ]}
          />
          <Pick
            sheet={sheet}
            at={`${PLACE}/condenser/earth`}
            label="Pole at the frame"
            choices={[
              ["", "not said"],
              ["negative", "negative"],
              ["positive", "positive"],
            ]}
          />
        </div>
        <GroupFaults sheet={sheet} places={[`${PLACE}/condenser`]} />
      </fieldset>
      <fieldset class="group">
        <legend>Plugs</legend>
        <div class="fields narrow">
          <Line sheet={sheet} at={`${PLACE}/plug/gap`} label="Plug gap" unit={unit} />
          <Line sheet={sheet} at={`${PLACE}/plug/uncertainty`} label="±" unit={unit} />
          <Line sheet={sheet} at={`${PLACE}/plug/limits/from`} label="Book, min" unit={unit} />
          <Line sheet={sheet} at={`${PLACE}/plug/limits/to`} label="Book, max" unit={unit} />
        </div>
        <GroupFaults sheet={sheet} places={[`${PLACE}/plug`]} />
      </fieldset>
    </>
  );
}

function Found({ found }: { found: ElectricsReport }) {
  return (
    <section class="answer" aria-label="Coil, condenser and plugs: what was found">
      {found.advice.map((advice, i) => (
        <Advice key={i} advice={advice} />
      ))}
      {found.resistors.map(({ name, judged, text }) => (
        <div key={name}>
          <Measured of={name} judged={judged} />
          <Texts texts={[judged ? text : `${name}: ${text}`]} />
        </div>
      ))}
      <Measured of="Condenser" judged={found.condenser?.judged} />
      <Texts texts={[found.condenser?.contacts]} />
      <Texts texts={[...found.charges.map(({ text }) => text), found.weak?.text]} />
      <Measured of="Plugs" judged={found.plug?.gap} />
      <Texts texts={found.plug?.text ?? []} />
    </section>
  );
}

/** Resistances, each with how warm it was. */
function Resistors({ sheet, warmth }: { sheet: Sheet; warmth: string }) {
  const rows = (at(sheet.document, RESISTORS) ?? []) as unknown[];
  return (
    <fieldset class="group">
      <legend>Windings, ballast, leads</legend>
      {rows.map((_, i) => {
        const place = `${RESISTORS}/${i}`;
        return (
          <div class="fields narrow part" key={i}>
            <Line sheet={sheet} at={`${place}/name`} label={`Resistance ${i + 1}: name`} kind="text" />
            <Pick
              sheet={sheet}
              at={`${place}/of`}
              label="Made of"
              choices={[
                ["", "choose …"],
                ["copper", "copper: a winding"],
                ["resistance_wire", "resistance wire"],
                ["carbon", "carbon: a lead"],
              ]}
            />
            <Line sheet={sheet} at={`${place}/reads`} label="Reads" unit="ohm" />
            <Line sheet={sheet} at={`${place}/uncertainty`} label="±" unit="ohm" />
            <Line sheet={sheet} at={`${place}/at`} label="Measured at" unit={warmth} />
            <Line sheet={sheet} at={`${place}/limits/from`} label="Book, min" unit="ohm" />
            <Line sheet={sheet} at={`${place}/limits/to`} label="Book, max" unit="ohm" />
            <Line sheet={sheet} at={`${place}/book_at`} label="Book holds at" unit={warmth} />
            <Pick
              sheet={truths(sheet)}
              at={`${place}/primary`}
              label="In the primary circuit"
              choices={[
                ["", "not said"],
                ["true", "yes"],
                ["false", "no"],
              ]}
            />
            <Out sheet={sheet} list={RESISTORS} rows={rows} i={i} name={`resistance ${i + 1}`} />
            <GroupFaults sheet={sheet} places={[place]} />
          </div>
        );
      })}
      <button
        type="button"
        onClick={() => sheet.write(RESISTORS, [...rows, { name: "", reads: "", uncertainty: "" }])}
      >
        Add a resistance
      </button>
    </fieldset>
  );
}
