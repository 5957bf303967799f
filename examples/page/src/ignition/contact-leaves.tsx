// What leaves said of a gap of contacts: a text of the document, typed as two leaves.

import { asText, at } from "../draft";
import { Line, type Sheet } from "../field";

/** What leaves said, as the kernel writes it: `0.35 mm goes, 0.40 mm does not`. */
const SAID = /^(?:(.+?) goes)?(?:, )?(?:(.+?) does not(?: go)?)?$/;

/** A reading of leaves: what goes in, and what does not. */
export function Felt({ sheet, place, unit }: { sheet: Sheet; place: string; unit: string }) {
  const text = asText(at(sheet.document, place));
  const said = SAID.exec(text);
  if (!said) return <Line sheet={sheet} at={place} label="What the leaves said" kind="text" />;
  const [, goes = "", refuses = ""] = said;
  const write = (goes: string, refuses: string) => {
    const both = `${goes} goes, ${refuses} does not`;
    const one = goes ? `${goes} goes` : refuses && `${refuses} does not go`;
    sheet.write(place, (goes && refuses ? both : one) || undefined);
  };
  const leaves: Sheet = {
    ...sheet,
    document: { [FELT]: { goes, refuses } },
    problems: sheet.problems
      .filter((problem) => problem.place === place)
      .map((problem) => ({ ...problem, place: `/${FELT}/refuses` })),
    form: place,
    write: (pointer, value) =>
      pointer.endsWith("goes") ? write(asText(value), refuses) : write(goes, asText(value)),
  };
  return (
    <div class="fields narrow">
      <Line sheet={leaves} at={`/${FELT}/goes`} label="Thickest leaf that goes in" unit={unit} />
      <Line sheet={leaves} at={`/${FELT}/refuses`} label="Thinnest that does not" unit={unit} />
    </div>
  );
}

const FELT = "contact-leaves";
