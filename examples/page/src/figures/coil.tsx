// A resistance at the book's temperature, and what a coil holds at speed.

import { GroupFaults, Line, Pick } from "../field";
import { Speeds } from "../ignition/speeds";
import { fixed, Texts } from "../ignition/told";
import { portion } from "../words";
import { doubt, Verdict } from "./told";
import type { FormProps } from "./view";

export function WindingForm({ sheet, report, warmth }: FormProps) {
  const place = "/winding";
  const found = report?.winding;
  return (
    <>
      {found && (
        <section class="answer" aria-label="Winding: what was found">
          <Verdict of="Resistance" judged={found.judged} below="Too low" above="Too high" />
          <Texts
            texts={[
              `at the book's temperature ${fixed(found.resistance.value.ohm, 3)} ohm, ` +
                doubt(`${fixed(found.resistance.uncertainty, 3)} ohm`),
            ]}
          />
        </section>
      )}
      <div class="fields narrow">
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
        <Line sheet={sheet} at={`${place}/uncertainty`} label="± reading" unit="ohm" />
        <Line sheet={sheet} at={`${place}/at`} label="Measured at" unit={warmth} />
        <Line sheet={sheet} at={`${place}/within`} label="± temperature" unit={warmth} />
        <Line sheet={sheet} at={`${place}/book_at`} label="Book holds at" unit={warmth} />
        <Line sheet={sheet} at={`${place}/limits/from`} label="Book, min" unit="ohm" />
        <Line sheet={sheet} at={`${place}/limits/to`} label="Book, max" unit="ohm" />
      </div>
      <GroupFaults sheet={sheet} places={[place, `${place}/limits`]} />
    </>
  );
}

export function CoilForm({ sheet, report }: FormProps) {
  const place = "/coil";
  return (
    <>
      <CoilAnswer report={report} />
      <div class="fields narrow">
        <Line sheet={sheet} at={`${place}/supply`} label="Supply, contacts closed" unit="V" />
        <Line sheet={sheet} at={`${place}/supply_uncertainty`} label="± supply" unit="V" />
        <Line
          sheet={sheet}
          at={`${place}/resistance`}
          label="Resistance of coil, ballast, leads together"
          unit="ohm"
        />
        <Line sheet={sheet} at={`${place}/resistance_uncertainty`} label="± resistance" unit="ohm" />
        <Line sheet={sheet} at={`${place}/inductance`} label="Inductance, primary" unit="mH" />
        <Line sheet={sheet} at={`${place}/inductance_uncertainty`} label="± inductance" unit="mH" />
        <Line sheet={sheet} at={`${place}/dwell`} label="Dwell" unit="deg" />
        <Line sheet={sheet} at={`${place}/dwell_uncertainty`} label="± dwell" unit="deg" />
        <Line sheet={sheet} at={`${place}/lobes`} label="Lobes of the cam" kind="number" />
        <Pick
          sheet={sheet}
          at={`${place}/cam`}
          label="The cam turns"
          choices={[
            ["", "choose …"],
            ["half_crank", "once in two turns of the crank"],
            ["crank", "once a turn of the crank"],
          ]}
        />
        <Speeds sheet={sheet} place={place} />
        <Line
          sheet={sheet}
          at={`${place}/weak_below/share_of_current`}
          label="Weak below this share of full current, 0 to 1"
          kind="number"
        />
      </div>
      <GroupFaults sheet={sheet} places={[place, `${place}/speeds`, `${place}/weak_below`]} />
    </>
  );
}

function CoilAnswer({ report }: { report: FormProps["report"] }) {
  const found = report?.coil;
  if (!found) return null;
  const { charges, weak_above: weak } = found;
  if (charges.length === 0 && !weak) return <p class="empty">Say at which speeds, or what is weak.</p>;
  return (
    <section class="answer" aria-label="Coil: what was found">
      <Texts
        texts={[
          ...charges.map(
            ({ speed, closed, current, energy, share_of_current: share }) =>
              `${fixed(speed.rpm, 0)} rpm: closed for ${fixed(closed.milliseconds, 2)} ms; ` +
              `${fixed(current.value.amperes, 2)} ± ${fixed(current.uncertainty, 2)} A, ` +
              `${portion(share)} of full current; ` +
              `${fixed(energy.value.millijoules, 1)} ± ${fixed(energy.uncertainty, 1)} mJ`,
          ),
          weak && `weak above ${fixed(weak.value.rpm, 0)} rpm, ${doubt(`${fixed(weak.uncertainty, 0)} rpm`)}`,
        ]}
      />
    </section>
  );
}
