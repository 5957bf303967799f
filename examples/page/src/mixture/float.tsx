// The fuel level in float chambers: against the book's, with the fuel that is burnt, and how the tang is bent.

import { at } from "../draft";
import { GroupFaults, Pick, type Sheet } from "../field";
import { Fields, Fold, Group, Rows } from "../fields";
import { Advice, Measured } from "../ignition/told";
import type { AnyReport, FloatReport } from "../kernel";
import type { CardProps } from "../steps/view";
import { sentence } from "../words";

const PLACE = "/mixture/float";
const LIST = `${PLACE}/chambers`;

export function FloatCard({ sheet, report, unit }: CardProps) {
  const rows = (at(sheet.document, LIST) ?? []) as { name?: string }[];
  return (
    <>
      <p class="notice">
        Fuel runs out of an open float chamber: engine cold, battery off, no flame or spark near, a tray under
        it.
      </p>
      <FloatFound report={report} />
      <Group
        title="Fuel over the book's mark"
        hint="A minus where it stands under the mark. The height of a dry float is another measure."
      >
        <Rows
          sheet={sheet}
          list={LIST}
          item={(number) => `float chamber ${rows[number - 1]?.name || number}`}
          of={(number) => [
            ["name", `Float chamber ${number}: name`, "text"],
            ["level", "Level over the mark", unit],
          ]}
          add={[["Add a float chamber", { name: `${rows.length + 1}`, level: "" }]]}
        />
        <GroupFaults sheet={sheet} places={[PLACE]} />
        <Fields
          sheet={sheet}
          at={PLACE}
          of={[
            ["uncertainty", "± of each level", unit],
            ["limits/from", "Book: level, min", unit],
            ["limits/to", "Book: level, max", unit],
          ]}
        />
        <GroupFaults sheet={sheet} places={[`${PLACE}/limits`]} />
      </Group>
      <FuelForm sheet={sheet} unit={unit} />
      <Fold
        title="Weight of the float, for the way of the tang"
        sheet={sheet}
        at={`${PLACE}/body`}
        of={[
          ["mass", "All that moves with the float", "g"],
          ["diameter", "Float, across", unit],
          ["floats", "Floats on one arm", "number"],
          ["seat", "Needle's seat, across", unit],
          ["fuel_pressure", "Fuel presses with", "kPa"],
          ["leverage", "Arm of the needle over arm of the float, as 0.4", "number"],
        ]}
        faults={[`${PLACE}/body`]}
      />
      <Fold
        title="Jet and nozzle, for what the level does there"
        sheet={sheet}
        at={PLACE}
        of={[
          ["jet_under_mark", "Jet under the mark", unit],
          ["nozzle/over_mark", "Nozzle over the mark", unit],
          ["nozzle/depression", "Depression at it", "kPa"],
          ["lambda", "Lambda before, if measured", "lambda"],
          ["lambda_uncertainty", "± lambda", "number"],
        ]}
        faults={[`${PLACE}/jet_under_mark`, `${PLACE}/nozzle`]}
      />
    </>
  );
}

const PER_LITRE = "kg/l";

/** The fuel the level was read with, and that which is burnt. */
function FuelForm({ sheet, unit }: Pick<CardProps, "sheet" | "unit">) {
  const isOther = at(sheet.document, `${PLACE}/read_with`) !== undefined;
  const withBody = at(sheet.document, `${PLACE}/body`) !== undefined;
  // What only another fuel asks for goes with it.
  const other: Sheet = {
    ...sheet,
    write: (pointer, value) =>
      value === undefined && pointer.endsWith("/read_with/fuel")
        ? sheet.write(`${PLACE}/read_with`, undefined)
        : sheet.write(pointer, value),
  };
  return (
    <Group title="Fuel">
      <Fields
        sheet={other}
        at={PLACE}
        of={[
          [
            "/mixture/fuel",
            "The engine burns",
            "text",
            "E0 to E100 by its ethanol, or a formula as C8H18.",
            "E5",
          ],
          ["read_with/fuel", "Level was read with, if another", "text", "", "E0"],
          ["density", "Density of what it burns", PER_LITRE],
          ["density_uncertainty", "± that density", PER_LITRE],
          isOther && ["read_with/density", "Density of the other", PER_LITRE],
          isOther && ["read_with/uncertainty", "± density of the other", PER_LITRE],
          isOther && !withBody && ["immersion/depth", "The float sits so deep", unit],
          isOther && !withBody && ["immersion/uncertainty", "± that depth", unit],
        ]}
      />
      {isOther && (
        <p class="hint">A float sits deeper in lighter fuel: how deep, or below what the float weighs.</p>
      )}
      <GroupFaults
        sheet={sheet}
        places={["density", "read_with", "immersion"].map((part) => `${PLACE}/${part}`)}
      />
    </Group>
  );
}

type Chamber = FloatReport["chambers"][number];

export function FloatFound({ report }: { report: AnyReport | null }) {
  const found = report?.mixture?.float;
  if (!found) return null;
  return (
    <section class="answer" aria-label="Fuel level: what was found">
      {found.fuel && <p class="notice">{sentence(found.fuel.text)}</p>}
      {found.chambers.map((chamber, i) => (
        <Told key={chamber.name} chamber={chamber} before={found.chambers[i - 1]} />
      ))}
    </section>
  );
}

/** A float chamber; what was said for the one before it just so is not said again. */
function Told({ chamber, before }: { chamber: Chamber; before: Chamber | undefined }) {
  const { name, judged, advice, at_jet_text, runs_over } = chamber;
  const last = before?.advice;
  const isSaid = last?.text === advice.text;
  const isAlike =
    advice.action === "set" &&
    last?.action === "set" &&
    JSON.stringify(advice.first) === JSON.stringify(last.first);
  return (
    <div class={before && "part"}>
      <Measured of={`Float chamber ${name}`} judged={judged} />
      {runs_over && at_jet_text && <p class="problems">{sentence(at_jet_text)}</p>}
      {isAlike && <p>First make sure of the same as for {before?.name}.</p>}
      {!isSaid && <Advice advice={isAlike ? { ...advice, first: [] } : advice} />}
      {!runs_over && at_jet_text && <p>{sentence(at_jet_text)}</p>}
    </div>
  );
}
