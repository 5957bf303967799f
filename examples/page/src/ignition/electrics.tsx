// Windings, ballast and leads, the condenser, the coil at speed and the plugs.

import { METALS, YES_OR_NO } from "./lists";
import type { Sheet } from "../field";
import { Group, Rows } from "../fields";
import type { AnyReport } from "../kernel";
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
      <Group
        title="Condenser"
        sheet={sheet}
        at={`${PLACE}/condenser`}
        of={[
          ["reads", "Reads", "uF"],
          ["uncertainty", "±", "uF"],
          ["limits/from", "Book, min", "uF"],
          ["limits/to", "Book, max", "uF"],
          [
            "build_up",
            "A peak has grown",
            { "": "not said", on_arm: "on the moving arm", on_fixed: "on the fixed contact" },
          ],
          ["earth", "Pole at the frame", { "": "not said", negative: "negative", positive: "positive" }],
        ]}
        faults={[`${PLACE}/condenser`]}
      />
      <Coil sheet={sheet} />
      <Group
        title="Plugs"
        sheet={sheet}
        at={`${PLACE}/plug`}
        of={[
          ["gap", "Plug gap", unit],
          ["uncertainty", "±", unit],
          ["limits/from", "Book, min", unit],
          ["limits/to", "Book, max", unit],
        ]}
        faults={[`${PLACE}/plug`]}
      />
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
    <Group
      title="Coil at speed"
      sheet={sheet}
      at={place}
      of={[
        ["supply", "Supply, contacts closed", "V"],
        ["supply_uncertainty", "±", "V"],
        ["inductance", "Inductance, primary", "mH"],
        ["inductance_uncertainty", "±", "mH"],
        ["dwell", "Dwell", "deg"],
        ["weak_below/share_of_current", "Weak below this share of full current, 0 to 1", "number"],
        <Speeds sheet={sheet} place={place} />,
      ]}
      faults={[place, `${place}/weak_below`, RESISTORS]}
    />
  );
}

/** The voltage that the plugs need at the pressure of compression, and what there is. */
function Voltage({ sheet, warmth }: { sheet: Sheet; warmth: string }) {
  const place = `${PLACE}/plug`;
  return (
    <Group
      title="Voltage for the spark"
      sheet={sheet}
      at={place}
      of={[
        ["compression/ratio", "Compression ratio", "number"],
        ["compression/spark", "Spark comes", "deg BTDC"],
        ["compression/start_at", "Charge begins at", warmth],
        ["compression/intake_closes", "Intake closes, past BDC", "deg"],
        ["available", "Coil gives", "kV"],
        ["available_uncertainty", "±", "kV"],
      ]}
      faults={[`${place}/compression`]}
    />
  );
}

/** Resistances, each with how warm it was. */
const Resistors = ({ sheet, warmth }: { sheet: Sheet; warmth: string }) => (
  <Group title="Windings, ballast, leads">
    <Rows
      sheet={sheet}
      list={RESISTORS}
      item={(number) => `resistance ${number}`}
      of={(number) => [
        ["name", `Resistance ${number}: name`, "text"],
        ["of", "Made of", METALS],
        ["reads", "Reads", "ohm"],
        ["uncertainty", "±", "ohm"],
        ["at", "Measured at", warmth],
        ["limits/from", "Book, min", "ohm"],
        ["limits/to", "Book, max", "ohm"],
        ["book_at", "Book holds at", warmth],
        ["primary", "In the primary circuit", YES_OR_NO],
      ]}
      add={[["Add a resistance", { name: "", reads: "", uncertainty: "" }]]}
    />
  </Group>
);
