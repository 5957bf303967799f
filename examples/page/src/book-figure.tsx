// The figure in the book: asked for before anything is judged, and in sight beside the leaves afterwards.

import { useState } from "preact/hooks";
import { asText, at } from "./draft";
import { Chips, Line, type Sheet } from "./field";
import { bare } from "./felt";
import { unitName } from "./words";

type Kind = "intake" | "exhaust";

const placeOf = (kind: Kind) => `/specifications/0/${kind}`;

/** What the first book has for a kind of valve; empty if nobody said it. */
export const figureOf = (sheet: Sheet, kind: Kind): string =>
  asText(at(sheet.document, `${placeOf(kind)}/set_to`));

interface Props {
  kind: Kind;
  sheet: Sheet;
  /** Offered as figures: what is in the book is on a leaf, as a rule. */
  leaves: readonly unknown[];
  unit: string;
}

export function BookFigure({ kind, sheet: whole, leaves, unit }: Props) {
  const sheet = { ...whole, form: "figure." };
  const figure = figureOf(sheet, kind);
  const [open, setOpen] = useState(figure === "");
  const several = (at(sheet.document, "/specifications") as unknown[]).length > 1;
  const place = placeOf(kind);
  const band = ["set/from", "set/to"].map((end) => bare(asText(at(sheet.document, `${place}/${end}`))));
  if (figure && !open) {
    return (
      <button type="button" class="figure" onClick={() => setOpen(true)}>
        <span>
          Book <strong>{figure}</strong> {band.some(Boolean) ? `(${band.join(" to ")})` : ""}
          {several && " and others"}
        </span>
      </button>
    );
  }
  return (
    <section class="card" aria-label={`Book figure, ${kind}`}>
      <Chips
        legend={`What does the book say? Gap to set, ${kind}, in ${unitName(unit)}`}
        name={`figure.${kind}`}
        value={figure}
        choices={leaves.map(asText).map((leaf) => [leaf, bare(leaf)] as const)}
        pick={(leaf) => (sheet.write(`${place}/set_to`, leaf), setOpen(false))}
      />
      <div class="fields narrow">
        <Line sheet={sheet} at={`${place}/set_to`} label="or typed" unit={unit} />
        <Line sheet={sheet} at={`${place}/set/from`} label="min, if printed" unit={unit} />
        <Line sheet={sheet} at={`${place}/set/to`} label="max" unit={unit} />
        <Line sheet={sheet} at={`${place}/plus_minus`} label="or ±, if printed" unit={unit} />
      </div>
      {figure && (
        <button type="button" onClick={() => setOpen(false)}>
          Done
        </button>
      )}
    </section>
  );
}
