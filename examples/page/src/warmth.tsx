// How warm the metal is: one stepper for each temperature that the document names.

import { asText, at, withUnit } from "./draft";
import { Faults, idOf, problemsAt, Line, type Sheet } from "./field";
import { useTyped } from "./typed";
import { sentence } from "./words";

interface Props {
  sheet: Sheet;
  unit: "C" | "F";
}

/** The named temperatures that some part of the document follows: no other can change an answer. */
function acting(document: unknown): number[] {
  const named = at(document, "/metal/temperatures");
  const parts = at(document, "/metal/parts");
  if (!Array.isArray(named)) return [];
  if (!Array.isArray(parts)) return [...named.keys()];
  const followed = parts.flatMap((part) =>
    ["/follows", "/between/cold", "/between/hot"].map((step) => asText(at(part, step))),
  );
  return [...named.keys()].filter((i) => followed.includes(asText(at(named[i], "/name"))));
}

/** Whether a document says how gaps follow temperature. */
export const warmthActs = (document: unknown): boolean =>
  ["/metal/parts", "/metal/measured"].some((place) => at(document, place) !== undefined);

export function Warmth({ sheet, unit }: Props) {
  const single =
    at(sheet.document, "/metal/measured") !== undefined && at(sheet.document, "/metal/use") !== "parts";
  const named = acting(sheet.document);
  if (named.length > 0 && !single) {
    return (
      <>
        {named.map((i) => (
          <Degrees
            key={i}
            sheet={sheet}
            place={`/metal/temperatures/${i}`}
            label={`Temperature of the ${asText(at(sheet.document, `/metal/temperatures/${i}/name`))}`}
            unit={unit}
          />
        ))}
      </>
    );
  }
  return <Degrees sheet={sheet} place="/metal/temperature" label="Temperature of the metal" unit={unit} />;
}

interface DegreesProps extends Props {
  place: string;
  label: string;
}

function Degrees({ sheet, place, label, unit }: DegreesProps) {
  const pointer = `${place}/is`;
  const id = idOf(pointer);
  const value = asText(at(sheet.document, pointer));
  const [typed, setTyped] = useTyped(value);
  const problems = value === "" ? [] : problemsAt(sheet.problems, pointer);
  const assumed = (sheet.assumptions ?? []).filter(({ code }) => code === "thermal.thermometer");
  const write = (text: string) => {
    if (text.trim() === value) return setTyped(value);
    const whole = withUnit(text, unit);
    if (whole !== "") sheet.write(pointer, whole);
    else if (at(sheet.document, `${place}/name`) === undefined) sheet.write(place, undefined);
    else sheet.write(pointer, "");
  };
  const step = (by: number) => {
    const [, number, rest] = /^([-−]?\d+(?:[.,]\d+)?)\s*(.*)$/.exec(value) ?? [null, "20", unit];
    const next = Number(number!.replace(",", ".").replace("−", "-")) + by;
    write(`${Number(next.toFixed(3))} ${rest}`);
  };
  return (
    <div class="warmth">
      <div class="side-head">
        <label for={id}>{label}</label>
        <div class="stepper">
          <button type="button" aria-label={`${label}: one degree less`} onClick={() => step(-1)}>
            −
          </button>
          <input
            id={id}
            type="text"
            inputMode="decimal"
            autoComplete="off"
            placeholder={unit}
            value={typed}
            aria-invalid={problems.length > 0}
            aria-describedby={`${id}.faults`}
            onInput={(event) => setTyped(event.currentTarget.value)}
            onChange={(event) => write(event.currentTarget.value)}
          />
          <button type="button" aria-label={`${label}: one degree more`} onClick={() => step(1)}>
            +
          </button>
        </div>
      </div>
      <Faults id={`${id}.faults`} problems={problems} />
      {value !== "" && (
        <details class="small">
          <summary>± degrees: {asText(at(sheet.document, `${place}/uncertainty`)) || "not said"}</summary>
          <Line
            sheet={sheet}
            at={`${place}/uncertainty`}
            label="Standard uncertainty of that temperature"
            unit="K"
            hint={
              assumed.map(({ text }) => sentence(text)).join(" ") || "About half of what it could be off."
            }
          />
        </details>
      )}
    </div>
  );
}
