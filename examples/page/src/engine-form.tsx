// Cylinders, firing order and the way the engine runs.

import { asText, at } from "./draft";
import { Faults, GroupFaults, idOf, Line, Pick, problemsAt, type Sheet } from "./field";
import { useTyped } from "./typed";

/** Problems of the engine that are about its firing order. */
const ORDER = /^engine\.order/;

export function EngineForm({ sheet, unit }: { sheet: Sheet; unit: string }) {
  const cylinders = at(sheet.document, "/engine/cylinders") as unknown[];
  /** The firing order names the cylinders too, as long as none of them was described. */
  const order = (labels: string[]) => {
    const engine = at(sheet.document, "/engine") as Record<string, unknown>;
    const plain = cylinders.every((one) => Object.keys(one as object).every((key) => key === "label"));
    const named = plain && labels.length !== cylinders.length && new Set(labels).size === labels.length;
    const fresh = named && { cylinders: [...labels].sort().map((label) => ({ label })) };
    sheet.write("/engine", { ...engine, firing_order: labels, ...fresh });
  };
  const listed = at(sheet.document, "/engine/firing") === "listed";
  return (
    <fieldset class="group">
      <legend>Engine</legend>
      <div class="fields">
        <Pick
          sheet={sheet}
          at="/engine/cycle"
          label="Cycle"
          choices={[
            ["four_stroke", "four-stroke"],
            ["two_stroke", "two-stroke"],
          ]}
        />
        <Line sheet={sheet} at="/engine/number" label="Engine serial number" kind="number" />
        <Words
          sheet={sheet}
          at="/engine/firing_order"
          label="Firing order"
          hint="Cylinder names, with a space between: 1 3 4 2"
          also={ORDER}
          written={order}
        />
        <Pick
          sheet={sheet}
          at="/engine/firing"
          label="Firing intervals"
          choices={[
            ["even", "all equal"],
            ["listed", "uneven: type them"],
            ["from_geometry", "uneven: from V angle and crank throws"],
          ]}
        />
        {listed && (
          <Words
            sheet={sheet}
            at="/engine/intervals"
            label="Intervals in degrees"
            unit="deg"
            hint="One after each firing: 315 405"
          />
        )}
        <Pick
          sheet={sheet}
          at="/engine/rotation/sense"
          label="Turns"
          choices={[
            ["clockwise", "clockwise (right)"],
            ["anticlockwise", "anticlockwise (left)"],
          ]}
        />
        <Pick
          sheet={sheet}
          at="/engine/rotation/seen_from"
          label="seen from"
          choices={[
            ["free_end", "the pulley end"],
            ["output_end", "the flywheel end"],
          ]}
        />
        <Line
          sheet={sheet}
          at="/engine/numbering"
          label="How cylinders are numbered"
          kind="text"
          hint="Where no. 1 is; in your own words if it is at neither end."
        />
        <Line sheet={sheet} at="/engine/pulley_diameter" label="Diameter of the marked pulley" unit={unit} />
      </div>
      <Cylinders sheet={sheet} cylinders={cylinders} />
    </fieldset>
  );
}

function Cylinders({ sheet, cylinders }: { sheet: Sheet; cylinders: unknown[] }) {
  const count = cylinders.length;
  const add = () => sheet.write("/engine/cylinders", [...cylinders, { label: String(count + 1) }]);
  const drop = () => sheet.write("/engine/cylinders", cylinders.slice(0, -1));
  return (
    <>
      <div class="side-head">
        <span id="cylinders.count">Cylinders</span>
        <div class="stepper" role="group" aria-labelledby="cylinders.count">
          <button type="button" aria-label="One cylinder less" disabled={count <= 1} onClick={drop}>
            −
          </button>
          <output aria-live="polite">{count}</output>
          <button type="button" aria-label="One cylinder more" onClick={add}>
            +
          </button>
        </div>
      </div>
      <details>
        <summary>Names, angles and sides of the cylinders</summary>
        {cylinders.map((_, i) => {
          const place = `/engine/cylinders/${i}`;
          return (
            <div class="fields narrow cylinder" key={i}>
              <Line sheet={sheet} at={`${place}/label`} label={`Name of no. ${i + 1}`} kind="text" />
              <Line sheet={sheet} at={`${place}/bank`} label="V angle" unit="deg" />
              <Line sheet={sheet} at={`${place}/crankpin`} label="Crank throw" unit="deg" />
              <Line sheet={sheet} at={`${place}/side`} label="Side (left / right)" kind="text" />
            </div>
          );
        })}
      </details>
      <GroupFaults
        sheet={sheet}
        places={["/engine/cylinders", "/engine", "/engine/rotation"]}
        except={ORDER}
      />
    </>
  );
}

interface WordsProps {
  sheet: Sheet;
  at: string;
  label: string;
  hint: string;
  unit?: string;
  /** Codes of problems of the whole engine that belong here. */
  also?: RegExp;
  /** Takes the words instead of writing them. */
  written?: (words: string[]) => void;
}

/** A list of short words in one line. */
function Words({ sheet, at: pointer, label, hint, unit, also, written }: WordsProps) {
  const found = at(sheet.document, pointer);
  const value = Array.isArray(found) ? found.map(asText).join(unit ? ", " : " ") : "";
  const [typed, setTyped] = useTyped(value);
  const id = idOf(pointer);
  const named = sheet.problems.filter(({ place, code }) => place === "/engine" && also?.test(code));
  // An empty line is still needed at most, never wrong.
  const problems = value === "" ? [] : [...problemsAt(sheet.problems, pointer), ...named];
  const write = (text: string) => {
    if (text === value) return;
    const words = text.split(unit ? /\s*[;,]\s*|\s+(?=[\d-])/ : /[\s,;–-]+/).filter(Boolean);
    const list = words.map((word) => (unit && /^-?[\d.]+$/.test(word) ? `${word} ${unit}` : word));
    if (written) written(list);
    else sheet.write(pointer, list);
  };
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="text"
        autoComplete="off"
        value={typed}
        aria-invalid={problems.length > 0}
        aria-describedby={`${id}.hint ${id}.faults`}
        onInput={(event) => setTyped(event.currentTarget.value)}
        onChange={(event) => write(event.currentTarget.value)}
      />
      <p class="hint" id={`${id}.hint`}>
        {hint}
      </p>
      <Faults id={`${id}.faults`} problems={problems} />
    </div>
  );
}
