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

/** The cylinders by their names, along the firing order. */
export const named = (sheet: Sheet): string[] =>
  ((at(sheet.document, "/engine/firing_order") ?? []) as unknown[]).map(String);

/** The same in the order in which they stand in the engine. */
export const asTheyStand = (sheet: Sheet): string[] =>
  ((at(sheet.document, "/engine/cylinders") ?? []) as { label?: unknown }[]).map(({ label }) =>
    String(label),
  );

/** Those along the firing order as choices of a field. */
export const cylinders = (sheet: Sheet): [string, string][] => [
  ["", "choose …"],
  ...named(sheet).map((label): [string, string] => [label, label]),
];

/** What conducts in a resistance. */
export const METALS = {
  "": "choose …",
  copper: "copper: a winding",
  resistance_wire: "resistance wire",
  carbon: "carbon: a lead",
};

/** What may be so, or not, or not be said. */
export const YES_OR_NO = { "": "not said", true: "yes", false: "no" };
