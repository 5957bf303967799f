// Inputs that belong to a place of a document: what the kernel says about that place stands below them.

import type { ComponentChildren } from "preact";
import { asNumber, asText, at, CLEARANCE, withUnit } from "./draft";
import type { Problem, Report } from "./kernel";
import { isAbsence, MISSING } from "./needed";
import { useTyped } from "./typed";
import { sentence, unitName } from "./words";

/** What every input of a form needs to know. */
export interface Sheet {
  document: unknown;
  problems: readonly Problem[];
  /** What the kernel had to assume, if it could report. */
  assumptions?: Report["assumptions"] | undefined;
  write: (pointer: string, value: unknown) => void;
  /** Tells the fields of two forms over one document apart. */
  form?: string;
  /** Whether the user wanted to go on: empty fields then say that they are needed. */
  asked?: boolean;
}

/** The part of a sheet that is about clearances: its pointers begin there. */
export function clearanceOf({ document, problems, write, ...rest }: Sheet): Sheet {
  const inside = problemsAt(problems, CLEARANCE);
  return {
    ...rest,
    document: at(document, CLEARANCE),
    problems: inside.map((problem) => ({ ...problem, place: problem.place.slice(CLEARANCE.length) })),
    write: (pointer, value) => write(CLEARANCE + pointer, value),
  };
}

export const idOf = (pointer: string): string => `at${pointer.replaceAll("/", ".")}`;

const below = (pointer: string, place: string) => place === pointer || place.startsWith(`${pointer}/`);

/** The problems at a place and inside it. */
export const problemsAt = (problems: readonly Problem[], ...pointers: string[]): Problem[] =>
  problems.filter(({ place }) => pointers.some((pointer) => below(pointer, place)));

/** Problems as text, each with what to do. */
export function Faults({ id, problems }: { id: string; problems: readonly Problem[] }) {
  if (problems.length === 0) return null;
  return (
    <div id={id} class="faults">
      {problems.map((problem) => (
        <p key={problem.place + problem.code}>
          <strong>{sentence(problem.message)}</strong> {sentence(problem.hint)}
        </p>
      ))}
    </div>
  );
}

/** Problems of a group as a whole: they name none of its fields. */
export function GroupFaults({ sheet, places, except }: { sheet: Sheet; places: string[]; except?: RegExp }) {
  const own = sheet.problems.filter(
    (problem) => places.includes(problem.place) && !isAbsence(problem) && !except?.test(problem.code),
  );
  return <Faults id={`${idOf(places[0] ?? "")}.faults`} problems={own} />;
}

interface TextProps {
  sheet: Sheet;
  at: string;
  label: string;
  /** Added to a number typed without a unit. */
  unit?: string;
  kind?: "quantity" | "text" | "number";
  hint?: string;
  placeholder?: string;
}

/** A line of text, a quantity or a number. What is typed is written when the field is left. */
export function Line({ sheet, at: pointer, label, unit, kind = "quantity", hint, placeholder }: TextProps) {
  const value = asText(at(sheet.document, pointer));
  const [typed, setTyped] = useTyped(value);
  const id = (sheet.form ?? "") + idOf(pointer);
  const told = problemsAt(sheet.problems, pointer);
  // An empty field is still needed at most, never wrong.
  const problems = value === "" ? [] : told;
  const needed = value === "" && sheet.asked === true && (told.length > 0 || isMissing(sheet, pointer));
  const write = (text: string) => {
    if (text.trim() === value) return setTyped(value);
    if (kind === "number") return sheet.write(pointer, asNumber(text));
    const whole = unit ? withUnit(text, unit) : text.trim();
    sheet.write(pointer, whole === "" ? undefined : whole);
  };
  return (
    <div class="field">
      <label for={id}>
        {label}
        {/* Lambda is no unit that a label has to tell of. */}
        {unit && unit !== "lambda" && <span class="unit"> in {unitName(unit)}</span>}
        {needed && <span class="needed"> – still needed</span>}
      </label>
      <input
        id={id}
        type="text"
        inputMode={kind === "text" ? undefined : "decimal"}
        autoComplete="off"
        value={typed}
        placeholder={placeholder ?? unit}
        aria-invalid={problems.length > 0}
        aria-describedby={`${id}.hint ${id}.faults`}
        onInput={(event) => setTyped(event.currentTarget.value)}
        onChange={(event) => write(event.currentTarget.value)}
      />
      {hint && (
        <p class="hint" id={`${id}.hint`}>
          {hint}
        </p>
      )}
      <Faults id={`${id}.faults`} problems={problems} />
    </div>
  );
}

/** Whether a part of the document was refused because it lacks the field at a place. */
function isMissing({ problems }: Sheet, pointer: string): boolean {
  const [, part = "", field = ""] = /^(.*)\/([^/]*)$/.exec(pointer) ?? [];
  return problems.some(
    ({ place, code, hint }) => code === MISSING && place === part && hint.includes(`"${field}"`),
  );
}

interface PickProps {
  sheet: Sheet;
  at: string;
  label: string;
  /** Value and words of each choice; an empty value takes the entry away. */
  choices: readonly (readonly [string, string])[];
}

/** One of a few words. */
export function Pick({ sheet, at: pointer, label, choices }: PickProps) {
  const id = idOf(pointer);
  const value = asText(at(sheet.document, pointer));
  const problems = problemsAt(sheet.problems, pointer);
  const unknown = value !== "" && !choices.some(([known]) => known === value);
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <select
        id={id}
        value={value}
        aria-invalid={problems.length > 0}
        aria-describedby={`${id}.faults`}
        onChange={(event) => sheet.write(pointer, event.currentTarget.value || undefined)}
      >
        {unknown && <option value={value}>{value}</option>}
        {choices.map(([choice, words]) => (
          <option key={choice} value={choice}>
            {words}
          </option>
        ))}
      </select>
      <Faults id={`${id}.faults`} problems={problems} />
    </div>
  );
}

interface ChipsProps<T extends string> {
  legend: ComponentChildren;
  name: string;
  value: string;
  choices: readonly Choice<T>[];
  pick: (value: T) => void;
  describedBy?: string;
  wide?: boolean;
  /** Whether a tap on what is chosen already counts again. */
  again?: boolean;
}

/** Value, words, and a small word below them with the class that draws it. */
export type Choice<T extends string> = readonly [
  T,
  string,
  mark?: { word: string; look: string } | undefined,
];

/** Large buttons of which one is down: radio buttons, so arrow keys work. */
export function Chips<T extends string>(props: ChipsProps<T>) {
  const { legend, name, value, choices, pick, describedBy, wide, again } = props;
  return (
    <fieldset class={`chips ${wide ? "wide" : ""}`} aria-describedby={describedBy}>
      <legend>{legend}</legend>
      <div class="chip-grid">
        {choices.map(([choice, words, mark]) => (
          <span class={`chip ${words.length > 8 ? "long" : ""} ${mark?.look ?? ""}`} key={choice}>
            <input
              type="radio"
              id={`${name}.${choice}`}
              name={name}
              value={choice}
              checked={choice === value}
              onChange={() => pick(choice)}
              onClick={() => again && choice === value && pick(choice)}
            />
            <label for={`${name}.${choice}`}>
              {words}
              {mark && <small>{mark.word}</small>}
            </label>
          </span>
        ))}
      </div>
    </fieldset>
  );
}
