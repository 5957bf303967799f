// The advance as a book prints it: a table by speed or by vacuum, at the crank or at the distributor.

import { at } from "../draft";
import { GroupFaults, Line, Pick, type Sheet } from "../field";
import { Out, truths } from "./lists";

/** What a table of the book goes by. */
interface Table {
  sheet: Sheet;
  /** Where it stands. */
  book: string;
  by: "speed" | "vacuum";
  unit: string;
}

/** Points of the advance as printed: at the crank or at the distributor. */
export function Printed({ sheet, book, by, unit }: Table) {
  const anyPoint = ["crank", "distributor"].some((where) => at(sheet.document, `${book}/${where}`));
  return (
    <fieldset class="group">
      <legend>What the book prints, by {by}</legend>
      <Points sheet={sheet} book={book} by={by} unit={unit} where="crank" />
      <Points sheet={sheet} book={book} by={by} unit={unit} where="distributor" />
      <GroupFaults sheet={sheet} places={[book]} />
      {anyPoint && (
        <Pick
          sheet={truths(sheet)}
          at={`${book}/ends`}
          label="Beyond the last point"
          choices={[
            ["", "choose …"],
            ["true", "the book says it goes no further"],
            ["false", "the book says nothing"],
          ]}
        />
      )}
    </fieldset>
  );
}

function Points({ sheet, book, by, unit, where }: Table & { where: "crank" | "distributor" }) {
  const list = `${book}/${where}`;
  const rows = (at(sheet.document, list) ?? []) as unknown[];
  return (
    <>
      {rows.map((_, i) => (
        <div class="fields narrow part" key={i}>
          <Line sheet={sheet} at={`${list}/${i}/${by}`} label={`Point ${i + 1}: ${where} at`} unit={unit} />
          <Line sheet={sheet} at={`${list}/${i}/least`} label="Least" unit="deg" />
          <Line sheet={sheet} at={`${list}/${i}/most`} label="Most" unit="deg" />
          <Out sheet={sheet} list={list} rows={rows} i={i} name={`point ${i + 1}`} />
        </div>
      ))}
      <button type="button" onClick={() => sheet.write(list, [...rows, { [by]: "", least: "", most: "" }])}>
        Add a point by {by}, at the {where}
      </button>
    </>
  );
}
