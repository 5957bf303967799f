// Windings, ballast and leads, the condenser, the coil at speed and the plugs.

import { at } from "../draft";
import { GroupFaults, Line, Pick, type Sheet } from "../field";
import type { AnyReport } from "../kernel";
import { Out, truths } from "./lists";
import { Speeds } from "./speeds";
import { Advice, Measured, Texts } from "./told";
import type { CardProps } from "../steps/view";

const PLACE = "/ignition/electrics";
const RESISTORS = `${PLACE}/resistors`;

export function ElectricsCard({ sheet, report, warmth, unit }: CardProps) {
  return (
    <>
      <ElectricsFound report={report} />
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
      <Coil sheet={sheet} />
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
      <Voltage sheet={sheet} warmth={warmth} />
    </>
  );
}

export function ElectricsFound({ report }: { report: AnyReport | null }) {
  const found = report?.ignition?.electrics;
  if (!found) return null;
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
      <Texts texts={[...found.charges, found.weak].map((one) => one && `the coil ${one.text}`)} />
      <Measured of="Plugs" judged={found.plug?.gap} />
      <Texts texts={found.plug?.text ?? []} />
    </section>
  );
}

/** The coil at speed; what flows is settled by the resistances in its circuit. */
function Coil({ sheet }: { sheet: Sheet }) {
  const place = `${PLACE}/coil`;
  return (
    <fieldset class="group">
      <legend>Coil at speed</legend>
      <div class="fields narrow">
        <Line sheet={sheet} at={`${place}/supply`} label="Supply, contacts closed" unit="V" />
        <Line sheet={sheet} at={`${place}/supply_uncertainty`} label="±" unit="V" />
        <Line sheet={sheet} at={`${place}/inductance`} label="Inductance, primary" unit="mH" />
        <Line sheet={sheet} at={`${place}/inductance_uncertainty`} label="±" unit="mH" />
        <Line sheet={sheet} at={`${place}/dwell`} label="Dwell" unit="deg" />
        <Line
          sheet={sheet}
          at={`${place}/weak_below/share_of_current`}
          label="Weak below this share of full current, 0 to 1"
          kind="number"
        />
        <Speeds sheet={sheet} place={place} />
      </div>
      <GroupFaults sheet={sheet} places={[place, `${place}/weak_below`, RESISTORS]} />
    </fieldset>
  );
}

/** The voltage that the plugs need at the pressure of compression, and what there is. */
function Voltage({ sheet, warmth }: { sheet: Sheet; warmth: string }) {
  const place = `${PLACE}/plug`;
  return (
    <fieldset class="group">
      <legend>Voltage for the spark</legend>
      <div class="fields narrow">
        <Line sheet={sheet} at={`${place}/compression/ratio`} label="Compression ratio" kind="number" />
        <Line sheet={sheet} at={`${place}/compression/spark`} label="Spark comes" unit="deg BTDC" />
        <Line sheet={sheet} at={`${place}/compression/start_at`} label="Charge begins at" unit={warmth} />
        <Line
          sheet={sheet}
          at={`${place}/compression/intake_closes`}
          label="Intake closes, past BDC"
          unit="deg"
        />
        <Line sheet={sheet} at={`${place}/available`} label="Coil gives" unit="kV" />
        <Line sheet={sheet} at={`${place}/available_uncertainty`} label="±" unit="kV" />
      </div>
      <GroupFaults sheet={sheet} places={[`${place}/compression`]} />
    </fieldset>
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
