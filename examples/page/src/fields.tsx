// Forms by what they ask for: each field by its place and its label, and what is typed or chosen there.

import type { ComponentChildren, VNode } from "preact";
import { at } from "./draft";
import { GroupFaults, Line, Pick, problemsAt, type Sheet } from "./field";

/** Values and their words, to choose from; "true" and "false" are written without quotes. */
export type Choices = { readonly [value: string]: string } | readonly (readonly [string, string])[];

/**
 * A field: its place, under that of its form unless it begins with a slash; its label; a unit, "text", "number" or
 * choices; a hint, and what stands in it while it is empty.
 */
export type Asked = readonly [
  place: string,
  label: string,
  kind?: string | Choices,
  hint?: string,
  placeholder?: string,
];

interface FieldsProps {
  sheet: Sheet;
  at?: string;
  of: readonly (Asked | VNode | false | null | undefined)[];
  /** The class of a row of a list, or of another look. */
  look?: string;
}

/** Fields beside each other. */
export function Fields({ sheet, at: place, of, look = "" }: FieldsProps) {
  return (
    <div class={`fields narrow ${look}`}>
      {of.map((one) => (Array.isArray(one) ? field(sheet, place, one as unknown as Asked) : (one as VNode)))}
    </div>
  );
}

function field(sheet: Sheet, part: string | undefined, [place, label, kind, hint, placeholder]: Asked) {
  const whole = place.startsWith("/") ? place : `${part}/${place}`;
  const own = { key: whole, sheet, at: whole, label, hint, placeholder };
  if (typeof kind === "object") return <Choose {...own} choices={kind} />;
  if (kind === "text" || kind === "number") return <Line {...own} kind={kind} />;
  return <Line {...own} unit={kind} />;
}

interface ChooseProps {
  sheet: Sheet;
  at: string;
  label: string;
  choices: Choices;
}

/** One of a few words. */
export function Choose({ sheet, choices, ...rest }: ChooseProps) {
  const all = Array.isArray(choices) ? choices : Object.entries(choices);
  const isTruth = all.some(([value]) => value === "true");
  const own: Sheet = isTruth
    ? { ...sheet, write: (place, value) => sheet.write(place, value && value === "true") }
    : sheet;
  return <Pick {...rest} sheet={own} choices={all} />;
}

/** The sheet of a field that stands for more than one place: how it is called, what is in it, and how it is written. */
export const standIn = (
  sheet: Sheet,
  place: string,
  name: string,
  value: string,
  write: (typed: unknown) => void,
  faults: readonly string[] = [],
): Sheet => ({
  ...sheet,
  document: { [name]: value },
  problems: problemsAt(sheet.problems, ...faults).map((problem) => ({ ...problem, place: `/${name}` })),
  form: place,
  write: (_, typed) => write(typed),
});

interface PartProps extends Partial<FieldsProps> {
  title: ComponentChildren;
  hint?: string;
  /** Places whose problems name none of the fields. */
  faults?: string[];
  children?: ComponentChildren;
}

function inside({ hint, faults, children, ...form }: PartProps) {
  return (
    <>
      {hint && <p class="hint">{hint}</p>}
      {form.of && <Fields {...(form as FieldsProps)} />}
      {children}
      {faults && <GroupFaults sheet={form.sheet!} places={faults} />}
    </>
  );
}

/** Fields that belong together, under a title. */
export const Group = (props: PartProps) => (
  <fieldset class="group">
    <legend>{props.title}</legend>
    {inside(props)}
  </fieldset>
);

/** The same folded away, for what few need. */
export const Fold = (props: PartProps) => (
  <details class="small">
    <summary>{props.title}</summary>
    {inside(props)}
  </details>
);

interface OutProps {
  sheet: Sheet;
  list: string;
  rows: readonly unknown[];
  i: number;
  name: string;
}

/** Takes an item out of a list, and the list away with its last item. */
export function Out({ sheet, list, rows, i, name }: OutProps) {
  const rest = rows.filter((_, other) => other !== i);
  return (
    <button type="button" class="quiet" onClick={() => sheet.write(list, rest.length > 0 ? rest : undefined)}>
      Take out {name}
    </button>
  );
}

interface RowsProps {
  sheet: Sheet;
  list: string;
  /** What one of the list is called, by its number. */
  item: (number: number) => string;
  of: (number: number) => FieldsProps["of"];
  /** What each button adds at the end. */
  add: readonly (readonly [label: string, fresh: object])[];
}

/** A list, each of its items with its fields and a way out; and what may be added to it. */
export function Rows({ sheet, list, item, of, add }: RowsProps) {
  const rows = (at(sheet.document, list) ?? []) as unknown[];
  return (
    <>
      {rows.map((_, i) => (
        <Fields
          key={i}
          look="part"
          sheet={sheet}
          at={`${list}/${i}`}
          of={[
            ...of(i + 1),
            <GroupFaults sheet={sheet} places={[`${list}/${i}`]} />,
            <Out sheet={sheet} list={list} rows={rows} i={i} name={item(i + 1)} />,
          ]}
        />
      ))}
      <GroupFaults sheet={sheet} places={[list]} />
      <div class="row">
        {add.map(([label, fresh]) => (
          <button type="button" key={label} onClick={() => sheet.write(list, [...rows, fresh])}>
            {label}
          </button>
        ))}
      </div>
    </>
  );
}
