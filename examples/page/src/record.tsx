// Who read what when: the form for it, and the line of it in a report.

import { asText, at } from "./draft";
import { Line, type Sheet } from "./field";
import type { Document } from "./kernel";

const LABELS = {
  date: "Date",
  machine: "Vehicle or machine",
  hours: "Hours run",
  distance: "Distance run",
  gauge: "Gauge",
  by: "Read by",
};

export function RecordForm({ sheet }: { sheet: Sheet }) {
  return (
    <details class="small tools">
      <summary>Date, hours, machine, name</summary>
      <div class="fields narrow">
        {Object.entries(LABELS).map(([field, label]) => (
          <Line key={field} sheet={sheet} at={`/record/${field}`} label={label} kind="text" />
        ))}
      </div>
    </details>
  );
}

/** What was said, and a line to write on where nothing was. */
export function RecordLine({ document }: { document: Document }) {
  const said = (place: string) => asText(at(document, place));
  const { date, machine, hours, distance, gauge, by } = LABELS;
  const ran = said("/record/distance") && !said("/record/hours") ? "distance" : "hours";
  const all = [
    [date, said("/record/date")],
    [machine, said("/record/machine")],
    [ran === "hours" ? hours : distance, said(`/record/${ran}`)],
    [gauge, said("/record/gauge")],
    [by, said("/record/by")],
    ["Engine serial number", said("/engine/number")],
  ];
  return (
    <dl class="record">
      {all.map(([label, value]) => (
        <div key={label} class={value ? "" : "blank"}>
          <dt>{label}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}
