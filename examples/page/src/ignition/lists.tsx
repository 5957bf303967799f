// What lists and statements in this step have in common.

import { at } from "../draft";
import type { Sheet } from "../field";

/** An ignition point, before top dead centre. */
export const BTDC = "deg BTDC";

/** What became of the vacuum hose; nothing is taken for granted of it. */
export const HOSES = [
  ["plugged", "pulled off and plugged"],
  ["not_fitted", "there is no capsule"],
  ["connected", "left on"],
] as const;

/** What the faces of contacts look like. */
export const FACES = [
  ["", "not said"],
  ["new", "new"],
  ["worn_flat", "used, flat and parallel"],
  ["pitted", "a crater on one, a peak on the other"],
] as const;

/** The sheet for a choice of "true" and "false", which a document writes without quotes. */
export const truths = (sheet: Sheet): Sheet => ({
  ...sheet,
  write: (pointer, value) => sheet.write(pointer, value === undefined ? undefined : value === "true"),
});

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

/** The cylinders by their names, along the firing order. */
export const named = (sheet: Sheet): string[] =>
  ((at(sheet.document, "/engine/firing_order") ?? []) as unknown[]).map(String);

/** The same as choices of a field. */
export const cylinders = (sheet: Sheet): [string, string][] => [
  ["", "choose …"],
  ...named(sheet).map((label): [string, string] => [label, label]),
];

/** What may be so, or not, or not be said. */
export const YES_OR_NO = [
  ["", "not said"],
  ["true", "yes"],
  ["false", "no"],
] as const;
