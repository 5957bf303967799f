// Jets for the air there is: what theory and the book ask for, side by side, and the sizes with what each gives.

import { at } from "../draft";
import { GroupFaults, type Sheet } from "../field";
import { Fields, Group, Out, Rows } from "../fields";
import { Advice, fixed, Table } from "../ignition/told";
import type { AnyReport, JetReport } from "../kernel";
import { Lines } from "../lines";
import type { CardProps } from "../steps/view";
import { sentence } from "../words";
import { AirForm } from "./air";
import { Numbers } from "./numbers";

const PLACE = "/mixture/jets";
const LIST = `${PLACE}/fitted`;

export function JetsCard({ sheet, report, unit, warmth }: CardProps) {
  const rows = (at(sheet.document, LIST) ?? []) as { numbering?: string }[];
  const add = (circuit: string) => sheet.write(LIST, [...rows, { circuit, number: "", sizes: [] }]);
  return (
    <>
      <JetsFound report={report} />
      <Group title="The air in which they were right">
        <AirForm sheet={sheet} place={`${PLACE}/set_for`} unit={unit} warmth={warmth} />
        <p class="hint">The air they go to is that of the part Air.</p>
      </Group>
      {rows.map((row, i) => (
        <JetForm key={i} sheet={sheet} rows={rows} i={i} byTable={row.numbering === "table"} />
      ))}
      <GroupFaults sheet={sheet} places={[PLACE, LIST]} />
      <div class="row">
        <button type="button" onClick={() => add("main")}>
          Add a main jet
        </button>
        <button type="button" onClick={() => add("pilot")}>
          Add a pilot jet
        </button>
      </div>
    </>
  );
}

interface JetFormProps {
  sheet: Sheet;
  rows: readonly unknown[];
  i: number;
  byTable: boolean;
}

function JetForm({ sheet, rows, i, byTable }: JetFormProps) {
  const place = `${LIST}/${i}`;
  return (
    <Group title={`Jet ${i + 1}`}>
      <Fields
        sheet={sheet}
        at={place}
        of={[
          ["circuit", "Which", { main: "main jet", pilot: "pilot or idle jet", needle: "needle" }],
          ["name", "Name, if there are several", "text"],
          ["number", "Number on it", "number"],
          [
            "numbering",
            "The number is",
            { "": "choose …", flow: "a flow", diameter: "the bore", table: "by the maker's table" },
          ],
        ]}
      />
      {byTable && <TableForm sheet={sheet} list={`${place}/table`} />}
      <Numbers sheet={sheet} at={`${place}/sizes`} label="Sizes there are, as 105 110 115" />
      <Fields
        sheet={sheet}
        at={place}
        of={[
          ["lambda", "Lambda with it, if measured", "lambda"],
          ["lambda_uncertainty", "± lambda", "number"],
          ["book_steps/per_1000_ft", "Book: down per 1000 ft up", "number"],
          ["book_steps/per_10_f", "Book: down per 10 °F hotter", "number"],
        ]}
      />
      <GroupFaults sheet={sheet} places={[place, `${place}/book_steps`]} />
      <Out sheet={sheet} list={LIST} rows={rows} i={i} name={`jet ${i + 1}`} />
    </Group>
  );
}

const TableForm = ({ sheet, list }: { sheet: Sheet; list: string }) => (
  <Rows
    sheet={sheet}
    list={list}
    item={(number) => `row ${number}`}
    of={(number) => [
      ["number", `Row ${number}: number`, "number"],
      ["flow", "Flow, any unit", "number"],
    ]}
    add={[["Add a row of the maker's table", { number: "", flow: "" }]]}
  />
);

export function JetsFound({ report }: { report: AnyReport | null }) {
  const found = report?.mixture?.jets;
  if (!found) return null;
  return (
    <>
      {found.jets.map((jet) => (
        <section key={jet.name} class="answer" aria-label={`Jets: ${jet.name}`}>
          <p>
            <strong>{sentence(jet.verdict_text)}</strong>
          </p>
          <Advice advice={jet.advice} />
          <Lines look="plain" lines={jet.cautions} />
          <Lines look="plain" lines={jet.rules} />
          <p>{sentence(jet.rules_text)}</p>
          <Sizes jet={jet} />
        </section>
      ))}
    </>
  );
}

/** Each size with what it gives here, and there where the jets were right. */
function Sizes({ jet }: { jet: JetReport }) {
  const of = jet.is_lambda_known ? "Lambda" : "Share of its lambda";
  const mark = (number: number) =>
    [number === jet.fitted && "fitted", number === jet.fit && "fit this"].filter(Boolean).join(", ");
  const others = jet.sizes.filter(({ number }) => number !== jet.kept.number);
  const sizes = [...others, jet.kept].sort((a, b) => a.number - b.number);
  return (
    <Table
      label={`Sizes of the ${jet.name}`}
      head={["Size", `${of} here`, "Back there"]}
      rows={sizes.map(({ number, lambda_from, lambda_to, lambda_u, back, back_u }) => [
        mark(number) ? `${number}\n${mark(number)}` : number,
        `${fixed(lambda_from, 2)} to\u00a0${fixed(lambda_to, 2)} ±${fixed(lambda_u, 2)}`,
        `${fixed(back, 2)} ±${fixed(back_u, 2)}`,
      ])}
    />
  );
}
