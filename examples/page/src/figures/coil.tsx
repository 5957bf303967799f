// A resistance at the book's temperature, and what a coil holds at speed.

import { GroupFaults } from "../field";
import { Fields } from "../fields";
import { METALS } from "../ignition/lists";
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
      <Fields
        sheet={sheet}
        at={place}
        of={[
          ["of", "Made of", METALS],
          ["reads", "Reads", "ohm"],
          ["uncertainty", "± reading", "ohm"],
          ["at", "Measured at", warmth],
          ["within", "± temperature", warmth],
          ["book_at", "Book holds at", warmth],
          ["limits/from", "Book, min", "ohm"],
          ["limits/to", "Book, max", "ohm"],
        ]}
      />
      <GroupFaults sheet={sheet} places={[place, `${place}/limits`]} />
    </>
  );
}

export function CoilForm({ sheet, report }: FormProps) {
  const place = "/coil";
  return (
    <>
      <CoilAnswer report={report} />
      <Fields
        sheet={sheet}
        at={place}
        of={[
          ["supply", "Supply, contacts closed", "V"],
          ["supply_uncertainty", "± supply", "V"],
          ["resistance", "Resistance of coil, ballast, leads together", "ohm"],
          ["resistance_uncertainty", "± resistance", "ohm"],
          ["inductance", "Inductance, primary", "mH"],
          ["inductance_uncertainty", "± inductance", "mH"],
          ["dwell", "Dwell", "deg"],
          ["dwell_uncertainty", "± dwell", "deg"],
          ["lobes", "Lobes of the cam", "number"],
          [
            "cam",
            "The cam turns",
            {
              "": "choose …",
              half_crank: "once in two turns of the crank",
              crank: "once a turn of the crank",
            },
          ],
          <Speeds sheet={sheet} place={place} />,
          ["weak_below/share_of_current", "Weak below this share of full current, 0 to 1", "number"],
        ]}
      />
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
