// How the metal cools: what a thermometer showed and when, to know how long to wait.

import { at } from "./draft";
import { GroupFaults, Line, type Sheet } from "./field";

const PLACE = "/metal/cooling";
const READINGS = `${PLACE}/readings`;

const EMPTY = {
  readings: [
    { after: "", is: "" },
    { after: "", is: "" },
  ],
  thermometer_uncertainty: "",
};

export function CoolingForm({ sheet, warmth }: { sheet: Sheet; warmth: string }) {
  const readings = at(sheet.document, READINGS) as unknown[] | undefined;
  if (at(sheet.document, PLACE) === undefined) {
    return (
      <button type="button" onClick={() => sheet.write(PLACE, EMPTY)}>
        Add cooling readings, to know how long to wait
      </button>
    );
  }
  return (
    <fieldset class="group">
      <legend>Cooling</legend>
      {(readings ?? []).map((_, i) => (
        <div class="fields narrow part" key={i}>
          <Line sheet={sheet} at={`${READINGS}/${i}/after`} label={`Reading ${i + 1}, after`} unit="min" />
          <Line sheet={sheet} at={`${READINGS}/${i}/is`} label="Thermometer shows" unit={warmth} />
          <button type="button" class="quiet" onClick={() => sheet.write(`${READINGS}/${i}`, undefined)}>
            Take out reading {i + 1}
          </button>
        </div>
      ))}
      <button
        type="button"
        onClick={() => sheet.write(READINGS, [...(readings ?? []), { after: "", is: "" }])}
      >
        Add a reading
      </button>
      <div class="fields">
        <Line
          sheet={sheet}
          at={`${PLACE}/thermometer_uncertainty`}
          label="Standard uncertainty of each reading"
          unit="K"
        />
        <Line sheet={sheet} at={`${PLACE}/surroundings`} label="Air round the engine" unit={warmth} />
        <Line
          sheet={sheet}
          at={`${PLACE}/share`}
          label="Close enough at this share of the limits"
          kind="number"
          hint="0.1 waits until the correction is uncertain by a tenth of their width."
        />
      </div>
      <GroupFaults sheet={sheet} places={[PLACE, READINGS]} />
      <button type="button" class="quiet" onClick={() => sheet.write(PLACE, undefined)}>
        Take the cooling out
      </button>
    </fieldset>
  );
}
