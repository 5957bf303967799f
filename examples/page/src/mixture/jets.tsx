// Jets for the air there is: what theory and the book ask for, side by side, and the sizes with what each gives.

import { at } from "../draft";
import { GroupFaults, Line, Pick, type Sheet } from "../field";
import { Out } from "../ignition/lists";
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
      <fieldset class="group">
        <legend>The air in which they were right</legend>
        <AirForm sheet={sheet} place={`${PLACE}/set_for`} unit={unit} warmth={warmth} />
        <p class="hint">The air they go to is that of the part Air.</p>
      </fieldset>
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
    <fieldset class="group">
      <legend>Jet {i + 1}</legend>
      <div class="fields narrow">
        <Pick
          sheet={sheet}
          at={`${place}/circuit`}
          label="Which"
          choices={[
            ["main", "main jet"],
            ["pilot", "pilot or idle jet"],
            ["needle", "needle"],
          ]}
        />
        <Line sheet={sheet} at={`${place}/name`} label="Name, if there are several" kind="text" />
        <Line sheet={sheet} at={`${place}/number`} label="Number on it" kind="number" />
        <Pick
          sheet={sheet}
          at={`${place}/numbering`}
          label="The number is"
          choices={[
            ["", "choose …"],
            ["flow", "a flow"],
            ["diameter", "the bore"],
            ["table", "by the maker's table"],
          ]}
        />
      </div>
      {byTable && <TableForm sheet={sheet} list={`${place}/table`} />}
      <Numbers sheet={sheet} at={`${place}/sizes`} label="Sizes there are, as 105 110 115" />
      <div class="fields narrow">
        <Line sheet={sheet} at={`${place}/lambda`} label="Lambda with it, if measured" unit="lambda" />
        <Line sheet={sheet} at={`${place}/lambda_uncertainty`} label="± lambda" kind="number" />
        <Line
          sheet={sheet}
          at={`${place}/book_steps/per_1000_ft`}
          label="Book: down per 1000 ft up"
          kind="number"
        />
        <Line
          sheet={sheet}
          at={`${place}/book_steps/per_10_f`}
          label="Book: down per 10 °F hotter"
          kind="number"
        />
      </div>
      <GroupFaults sheet={sheet} places={[place, `${place}/book_steps`]} />
      <Out sheet={sheet} list={LIST} rows={rows} i={i} name={`jet ${i + 1}`} />
    </fieldset>
  );
}

function TableForm({ sheet, list }: { sheet: Sheet; list: string }) {
  const rows = (at(sheet.document, list) ?? []) as unknown[];
  return (
    <>
      {rows.map((_, i) => (
        <div class="fields narrow part" key={i}>
          <Line sheet={sheet} at={`${list}/${i}/number`} label={`Row ${i + 1}: number`} kind="number" />
          <Line sheet={sheet} at={`${list}/${i}/flow`} label="Flow, any unit" kind="number" />
          <Out sheet={sheet} list={list} rows={rows} i={i} name={`row ${i + 1}`} />
        </div>
      ))}
      <GroupFaults sheet={sheet} places={[list]} />
      <button type="button" onClick={() => sheet.write(list, [...rows, { number: "", flow: "" }])}>
        Add a row of the maker's table
      </button>
    </>
  );
}

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
