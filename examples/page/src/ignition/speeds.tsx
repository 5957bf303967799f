// Speeds in one field, as they are typed one after the other.

import { asText, at, withUnit } from "../draft";
import { Line, type Sheet } from "../field";

/** The speeds of what stands at a place. */
export function Speeds({ sheet, place }: { sheet: Sheet; place: string }) {
  const speeds = (at(sheet.document, `${place}/speeds`) ?? []) as unknown[];
  const own: Sheet = {
    ...sheet,
    document: { speeds: speeds.map((speed) => asText(speed).replace(/ rpm$/, "")).join(" ") },
    problems: sheet.problems.map((problem) => ({ ...problem, place: problem.place.replace(place, "") })),
    form: place,
    write: (_, typed) => {
      const each = asText(typed).split(/[\s,;]+/);
      const all = each.filter((one) => /\d/.test(one)).map((one) => withUnit(one, "rpm"));
      sheet.write(`${place}/speeds`, all.length > 0 ? all : undefined);
    },
  };
  return <Line sheet={own} at="/speeds" label="At speeds in rpm, as 1000 4500" kind="text" />;
}
