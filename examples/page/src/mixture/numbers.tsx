// A list of numbers typed in one line.

import { at as valueAt, asNumber } from "../draft";
import { Line, type Sheet } from "../field";
import { standIn } from "../fields";

interface Props {
  sheet: Sheet;
  at: string;
  label: string;
}

/** Numbers with blanks between them; a document has them as a list. */
export function Numbers({ sheet, at, label }: Props) {
  const list = ((valueAt(sheet.document, at) ?? []) as unknown[]).join(" ");
  const write = (typed: unknown) => {
    const each = String(typed ?? "").split(/[\s;]+/);
    sheet.write(at, each.filter(Boolean).map(asNumber));
  };
  return <Line sheet={standIn(sheet, at, "list", list, write, [at])} at="/list" label={label} kind="text" />;
}
