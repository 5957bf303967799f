// One ignition point said by every tool at hand, and where the lamp flashes.

import { at } from "../draft";
import { GroupFaults, Line, Pick, type Sheet } from "../field";
import type { AnyReport } from "../kernel";
import { Lines } from "../lines";
import { sentence } from "../words";
import { BTDC, cylinders, truths } from "./lists";
import { Table, tenth, Texts } from "./told";
import type { CardProps } from "../steps/view";

const PLACE = "/ignition/point";
const ENGINE = "/engine";

export function PointCard({ sheet, report, unit }: CardProps) {
  const hasDial = at(sheet.document, `${PLACE}/dial`) !== undefined;
  return (
    <>
      <PointFound report={report} />
      <div class="fields narrow">
        <Line
          sheet={sheet}
          at={`${PLACE}/at`}
          label="Ignition point"
          unit={BTDC}
          hint="Empty: where the timing is to be set."
        />
        <YesNo sheet={sheet} at={`${PLACE}/wheel`} label="Degree wheel on the crank" />
        <Line sheet={sheet} at={`${ENGINE}/pulley_diameter`} label="Rim with the mark, across" unit={unit} />
        <YesNo sheet={sheet} at={`${PLACE}/by_tape`} label="Mark laid off with a tape" />
        <DialPick sheet={sheet} hasDial={hasDial} />
      </div>
      {hasDial && (
        <fieldset class="group">
          <legend>Dial gauge through the plug hole</legend>
          <div class="fields narrow">
            <Pick sheet={sheet} at={`${PLACE}/cylinder`} label="Cylinder" choices={cylinders(sheet)} />
            <Line sheet={sheet} at={`${PLACE}/dial/uncertainty`} label="±" unit={unit} />
            <Line sheet={sheet} at={`${PLACE}/dial/plug_hole`} label="Hole leans from the bore" unit="deg" />
            <Line
              sheet={sheet}
              at={`${ENGINE}/crank/throw`}
              label="Crank throw, half the stroke"
              unit={unit}
            />
            <Line sheet={sheet} at={`${ENGINE}/crank/rod`} label="Rod, eye to eye" unit={unit} />
            <Line sheet={sheet} at={`${ENGINE}/crank/offset`} label="Pin offset" unit={unit} />
            <Line sheet={sheet} at={`${PLACE}/book_travel`} label="Book: piston travel" unit={unit} />
          </div>
        </fieldset>
      )}
      <Pick
        sheet={sheet}
        at={`${PLACE}/sparks`}
        label="A plug sparks"
        choices={[
          ["", "not said"],
          ["once_a_cycle", "when its cylinder fires"],
          ["once_a_turn", "at overlap too"],
        ]}
      />
      <GroupFaults sheet={sheet} places={[PLACE, `${PLACE}/dial`, `${ENGINE}/crank`]} />
    </>
  );
}

export function PointFound({ report }: { report: AnyReport | null }) {
  const found = report?.ignition?.point;
  if (!found) return null;
  return (
    <section class="answer" aria-label="Ignition point: what was found">
      <p>
        <strong>{tenth(found.at.deg_btdc)} deg BTDC, the surest way first:</strong>
      </p>
      <Lines lines={found.ways} />
      <Texts texts={[found.pair]} />
      <Table
        label="Where the lamp flashes"
        head={["Lamp on", "Flashes with this at the pointer"]}
        rows={found.flashes.map(({ cylinder, is_wasted, place }) => [
          is_wasted ? `${cylinder}, at overlap` : cylinder,
          sentence(place),
        ])}
      />
    </section>
  );
}

function YesNo({ sheet, at, label }: { sheet: Sheet; at: string; label: string }) {
  return (
    <Pick
      sheet={truths(sheet)}
      at={at}
      label={label}
      choices={[
        ["", "no"],
        ["true", "yes"],
      ]}
    />
  );
}

/** Whether there is a dial gauge: a part of the document that may be empty. */
function DialPick({ sheet, hasDial }: { sheet: Sheet; hasDial: boolean }) {
  const own: Sheet = {
    ...sheet,
    document: { dial: hasDial ? "yes" : "" },
    problems: [],
    form: PLACE,
    write: (_, value) => sheet.write(`${PLACE}/dial`, value ? {} : undefined),
  };
  return (
    <Pick
      sheet={own}
      at="/dial"
      label="Dial gauge"
      choices={[
        ["", "no"],
        ["yes", "through the plug hole"],
      ]}
    />
  );
}
