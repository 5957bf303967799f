// The fuel level in float chambers: against the book's, with the fuel that is burnt, and how the tang is bent.

import { at } from "../draft";
import { GroupFaults, Line, type Sheet } from "../field";
import { Out } from "../ignition/lists";
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
      <fieldset class="group">
        <legend>Fuel over the book's mark</legend>
        <p class="hint">
          A minus where it stands under the mark. The height of a dry float is another measure.
        </p>
        {rows.map(({ name }, i) => (
          <div class="fields narrow part" key={i}>
            <Line sheet={sheet} at={`${LIST}/${i}/name`} label={`Float chamber ${i + 1}: name`} kind="text" />
            <Line sheet={sheet} at={`${LIST}/${i}/level`} label="Level over the mark" unit={unit} />
            <GroupFaults sheet={sheet} places={[`${LIST}/${i}`]} />
            <Out sheet={sheet} list={LIST} rows={rows} i={i} name={`float chamber ${name || i + 1}`} />
          </div>
        ))}
        <GroupFaults sheet={sheet} places={[PLACE, LIST]} />
        <button
          type="button"
          onClick={() => sheet.write(LIST, [...rows, { name: `${rows.length + 1}`, level: "" }])}
        >
          Add a float chamber
        </button>
        <div class="fields narrow">
          <Line sheet={sheet} at={`${PLACE}/uncertainty`} label="± of each level" unit={unit} />
          <Line sheet={sheet} at={`${PLACE}/limits/from`} label="Book: level, min" unit={unit} />
          <Line sheet={sheet} at={`${PLACE}/limits/to`} label="Book: level, max" unit={unit} />
        </div>
        <GroupFaults sheet={sheet} places={[`${PLACE}/limits`]} />
      </fieldset>
      <FuelForm sheet={sheet} unit={unit} />
      <details class="small">
        <summary>Weight of the float, for the way of the tang</summary>
        <div class="fields narrow">
          <Line sheet={sheet} at={`${PLACE}/body/mass`} label="All that moves with the float" unit="g" />
          <Line sheet={sheet} at={`${PLACE}/body/diameter`} label="Float, across" unit={unit} />
          <Line sheet={sheet} at={`${PLACE}/body/floats`} label="Floats on one arm" kind="number" />
          <Line sheet={sheet} at={`${PLACE}/body/seat`} label="Needle's seat, across" unit={unit} />
          <Line sheet={sheet} at={`${PLACE}/body/fuel_pressure`} label="Fuel presses with" unit="kPa" />
          <Line
            sheet={sheet}
            at={`${PLACE}/body/leverage`}
            label="Arm of the needle over arm of the float, as 0.4"
            kind="number"
          />
        </div>
        <GroupFaults sheet={sheet} places={[`${PLACE}/body`]} />
      </details>
      <details class="small">
        <summary>Jet and nozzle, for what the level does there</summary>
        <div class="fields narrow">
          <Line sheet={sheet} at={`${PLACE}/jet_under_mark`} label="Jet under the mark" unit={unit} />
          <Line sheet={sheet} at={`${PLACE}/nozzle/over_mark`} label="Nozzle over the mark" unit={unit} />
          <Line sheet={sheet} at={`${PLACE}/nozzle/depression`} label="Depression at it" unit="kPa" />
          <Line sheet={sheet} at={`${PLACE}/lambda`} label="Lambda before, if measured" unit="lambda" />
          <Line sheet={sheet} at={`${PLACE}/lambda_uncertainty`} label="± lambda" kind="number" />
        </div>
        <GroupFaults sheet={sheet} places={[`${PLACE}/jet_under_mark`, `${PLACE}/nozzle`]} />
      </details>
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
      value === undefined && pointer.endsWith("/fuel")
        ? sheet.write(`${PLACE}/read_with`, undefined)
        : sheet.write(pointer, value),
  };
  return (
    <fieldset class="group">
      <legend>Fuel</legend>
      <div class="fields narrow">
        <Line
          sheet={sheet}
          at="/mixture/fuel"
          label="The engine burns"
          kind="text"
          placeholder="E5"
          hint="E0 to E100 by its ethanol, or a formula as C8H18."
        />
        <Line
          sheet={other}
          at={`${PLACE}/read_with/fuel`}
          label="Level was read with, if another"
          kind="text"
          placeholder="E0"
        />
        <Line sheet={sheet} at={`${PLACE}/density`} label="Density of what it burns" unit={PER_LITRE} />
        <Line sheet={sheet} at={`${PLACE}/density_uncertainty`} label="± that density" unit={PER_LITRE} />
        {isOther && (
          <>
            <Line
              sheet={sheet}
              at={`${PLACE}/read_with/density`}
              label="Density of the other"
              unit={PER_LITRE}
            />
            <Line
              sheet={sheet}
              at={`${PLACE}/read_with/uncertainty`}
              label="± density of the other"
              unit={PER_LITRE}
            />
          </>
        )}
        {isOther && !withBody && (
          <>
            <Line sheet={sheet} at={`${PLACE}/immersion/depth`} label="The float sits so deep" unit={unit} />
            <Line sheet={sheet} at={`${PLACE}/immersion/uncertainty`} label="± that depth" unit={unit} />
          </>
        )}
      </div>
      {isOther && (
        <p class="hint">A float sits deeper in lighter fuel: how deep, or below what the float weighs.</p>
      )}
      <GroupFaults
        sheet={sheet}
        places={["density", "read_with", "immersion"].map((part) => `${PLACE}/${part}`)}
      />
    </fieldset>
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
