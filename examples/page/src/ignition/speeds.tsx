// Speeds in one field, as they are typed one after the other.

import { asText, at, withUnit } from "../draft";
import { Line, type Sheet } from "../field";
import { standIn } from "../fields";

/** The speeds of what stands at a place. */
export function Speeds({ sheet, place }: { sheet: Sheet; place: string }) {
  const list = `${place}/speeds`;
  const speeds = (at(sheet.document, list) ?? []) as unknown[];
  const said = speeds.map((speed) => asText(speed).replace(/ rpm$/, "")).join(" ");
  const write = (typed: unknown) => {
    const each = asText(typed).split(/[\s,;]+/);
    const all = each.filter((one) => /\d/.test(one)).map((one) => withUnit(one, "rpm"));
    sheet.write(list, all.length > 0 ? all : undefined);
  };
  const own = standIn(sheet, place, "speeds", said, write, [list]);
  return <Line sheet={own} at="/speeds" label="At speeds in rpm, as 1000 4500" kind="text" />;
}
