// One ignition point said by every tool at hand, and where the lamp flashes.

import { at } from "../draft";
import { GroupFaults, type Sheet } from "../field";
import { Choose, Fields, Group, standIn } from "../fields";
import type { AnyReport } from "../kernel";
import { Lines } from "../lines";
import { sentence } from "../words";
import { BTDC, cylinders } from "./lists";
import { Table, tenth, Texts } from "./told";
import type { CardProps } from "../steps/view";

const PLACE = "/ignition/point";
const ENGINE = "/engine";

export function PointCard({ sheet, report, unit }: CardProps) {
  const hasDial = at(sheet.document, `${PLACE}/dial`) !== undefined;
  return (
    <>
      <PointFound report={report} />
      <Fields
        sheet={sheet}
        at={PLACE}
        of={[
          ["at", "Ignition point", BTDC, "Empty: where the timing is to be set."],
          ["wheel", "Degree wheel on the crank", { "": "no", true: "yes" }],
          [`${ENGINE}/pulley_diameter`, "Rim with the mark, across", unit],
          ["by_tape", "Mark laid off with a tape", { "": "no", true: "yes" }],
          <DialPick sheet={sheet} hasDial={hasDial} />,
        ]}
      />
      {hasDial && (
        <Group
          title="Dial gauge through the plug hole"
          sheet={sheet}
          at={PLACE}
          of={[
            ["cylinder", "Cylinder", cylinders(sheet)],
            ["dial/uncertainty", "±", unit],
            ["dial/plug_hole", "Hole leans from the bore", "deg"],
            [`${ENGINE}/crank/throw`, "Crank throw, half the stroke", unit],
            [`${ENGINE}/crank/rod`, "Rod, eye to eye", unit],
            [`${ENGINE}/crank/offset`, "Pin offset", unit],
            ["book_travel", "Book: piston travel", unit],
          ]}
        />
      )}
      <Choose
        sheet={sheet}
        at={`${PLACE}/sparks`}
        label="A plug sparks"
        choices={{ "": "not said", once_a_cycle: "when its cylinder fires", once_a_turn: "at overlap too" }}
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

/** Whether there is a dial gauge: a part of the document that may be empty. */
function DialPick({ sheet, hasDial }: { sheet: Sheet; hasDial: boolean }) {
  const write = (value: unknown) => sheet.write(`${PLACE}/dial`, value ? {} : undefined);
  return (
    <Choose
      sheet={standIn(sheet, PLACE, "dial", hasDial ? "yes" : "", write)}
      at="/dial"
      label="Dial gauge"
      choices={{ "": "no", yes: "through the plug hole" }}
    />
  );
}
