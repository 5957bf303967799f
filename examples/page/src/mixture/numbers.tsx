// A list of numbers typed in one line.

import { at as valueAt, asNumber } from "../draft";
import { Line, type Sheet } from "../field";

interface Props {
  sheet: Sheet;
  at: string;
  label: string;
}

/** Numbers with blanks between them; a document has them as a list. */
export function Numbers({ sheet, at, label }: Props) {
  const list = (valueAt(sheet.document, at) ?? []) as unknown[];
  const own: Sheet = {
    ...sheet,
    document: { list: list.join(" ") },
    problems: sheet.problems
      .filter(({ place }) => place === at || place.startsWith(`${at}/`))
      .map((problem) => ({ ...problem, place: "/list" })),
    form: at,
    write: (_, typed) =>
      sheet.write(
        at,
        String(typed ?? "")
          .split(/[\s;]+/)
          .filter(Boolean)
          .map(asNumber),
      ),
  };
  return <Line sheet={own} at="/list" label={label} kind="text" />;
}
