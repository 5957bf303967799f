// A row of a list that has one for each cylinder or valve: it comes with its first entry and goes with its last.

import { at, put } from "./draft";
import type { Sheet } from "./field";

type Row = Record<string, unknown>;

/** Where the row of a key stands in a list, or would stand; and the sheet that its fields write in. */
export function keyed(sheet: Sheet, list: string, key: Row): { sheet: Sheet; place: string } {
  const rows = (at(sheet.document, list) ?? []) as Row[];
  // What is the first of its kind may be so without a number, and what is of the whole engine has no cylinder.
  const isIts = (row: Row) =>
    Object.entries(key).every(([name, value]) => (row[name] ?? (name === "number" ? 1 : "")) === value);
  const found = rows.findIndex(isIts);
  const i = found < 0 ? rows.length : found;
  const place = `${list}/${i}`;
  const write = (pointer: string, value: unknown) => {
    const row = put(rows[i] ?? said(key), pointer.slice(place.length), value);
    const isEmpty = !row || Object.keys(row).every((name) => name in key);
    const next = [...rows.slice(0, i), ...(isEmpty ? [] : [row]), ...rows.slice(i + 1)];
    sheet.write(list, next.length > 0 ? next : undefined);
  };
  // Rows that are not there yet would all stand at one place: their fields are told apart by the key.
  return { sheet: { ...sheet, write, form: Object.values(key).join(".") }, place };
}

/** A key as it is written: what is of the whole engine names no cylinder. */
const said = (key: Row): Row => Object.fromEntries(Object.entries(key).filter(([, value]) => value !== ""));
