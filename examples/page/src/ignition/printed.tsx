// The advance as a book prints it: a table by speed or by vacuum, at the crank or at the distributor.

import { at } from "../draft";
import { GroupFaults, type Sheet } from "../field";
import { Choose, Group, Rows } from "../fields";

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
    <Group title={`What the book prints, by ${by}`}>
      <Points sheet={sheet} book={book} by={by} unit={unit} where="crank" />
      <Points sheet={sheet} book={book} by={by} unit={unit} where="distributor" />
      <GroupFaults sheet={sheet} places={[book]} />
      {anyPoint && (
        <Choose
          sheet={sheet}
          at={`${book}/ends`}
          label="Beyond the last point"
          choices={{
            "": "choose …",
            true: "the book says it goes no further",
            false: "the book says nothing",
          }}
        />
      )}
    </Group>
  );
}

function Points({ sheet, book, by, unit, where }: Table & { where: "crank" | "distributor" }) {
  const list = `${book}/${where}`;
  return (
    <Rows
      sheet={sheet}
      list={list}
      item={(number) => `point ${number}`}
      of={(number) => [
        [by, `Point ${number}: ${where} at`, unit],
        ["least", "Least", "deg"],
        ["most", "Most", "deg"],
      ]}
      add={[[`Add a point by ${by}, at the ${where}`, { [by]: "", least: "", most: "" }]]}
    />
  );
}
