// Where the crank can be stopped, where it stands, and where to start.

import { asText, at } from "./draft";
import { GroupFaults, Line, Pick, type Sheet } from "./field";

const PLACE = "/plan";
const MARKS = `${PLACE}/marks`;

export function PlanForm({ sheet, cylinders }: { sheet: Sheet; cylinders: readonly { label?: unknown }[] }) {
  const marks = (at(sheet.document, MARKS) ?? []) as unknown[];
  const byMarks = at(sheet.document, `${PLACE}/places`) === "marks";
  return (
    <fieldset class="group">
      <legend>Stopping the crank</legend>
      <div class="fields">
        <Pick
          sheet={sheet}
          at={`${PLACE}/places`}
          label="It can be stopped"
          choices={[
            ["", "not said"],
            ["tdc", "at the dead centres"],
            ["marks", "at marks on the pulley"],
            ["any_angle", "anywhere, with a degree wheel"],
          ]}
        />
        <Line
          sheet={sheet}
          at={`${PLACE}/from`}
          label="It stands now"
          unit="deg"
          hint="After firing TDC of the first cylinder in the firing order."
        />
        <Pick
          sheet={sheet}
          at="/start"
          label="Start with cylinder"
          choices={[
            ["", "not said"],
            ...cylinders.map(({ label }) => [asText(label), asText(label)] as const),
          ]}
        />
      </div>
      {marks.map((_, i) => (
        <div class="fields narrow part" key={i}>
          <Line sheet={sheet} at={`${MARKS}/${i}/label`} label={`Mark ${i + 1} reads`} kind="text" />
          <Line sheet={sheet} at={`${MARKS}/${i}/at`} label="After TDC" unit="deg" />
          <Line sheet={sheet} at={`${MARKS}/${i}/after`} label="of cylinder" kind="text" />
          <button type="button" class="quiet" onClick={() => sheet.write(`${MARKS}/${i}`, undefined)}>
            Take out mark {i + 1}
          </button>
        </div>
      ))}
      {byMarks && (
        <button type="button" onClick={() => sheet.write(MARKS, [...marks, { label: "", at: "" }])}>
          Add a mark
        </button>
      )}
      <GroupFaults sheet={sheet} places={[PLACE, MARKS]} />
    </fieldset>
  );
}
