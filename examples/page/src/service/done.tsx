// What was done in this service, in its order; and how far something was moved, where a document says that.

import { at } from "../draft";
import { GroupFaults, type Sheet } from "../field";
import { Fields, Out, type Asked } from "../fields";
import type { ServiceReport } from "../kernel";
import { sentence } from "../words";

interface Props {
  sheet: Sheet;
  steps: ServiceReport["steps"];
  unit: "mm" | "in";
}

interface Entry {
  step: string;
  did: "read" | "set";
}

const LOG = "/log";

/** What is said of how far something was set. */
const amounts = (unit: string): { [step: string]: Asked } => ({
  valves: ["lash", "Most of any valve, wider by", unit, "A minus where it is narrower now."],
  contacts: ["dwell", "More dwell by", "deg", "A minus where it is less now."],
  timing: ["spark", "The spark comes earlier by", "deg", "Of the crank; a minus where it comes later now."],
});

export function DoneForm({ sheet, steps, unit }: Props) {
  const log = (at(sheet.document, LOG) ?? []) as Entry[];
  if (log.length === 0) return null;
  const nameOf = (step: string) => steps.find((one) => one.step === step)?.name ?? step;
  return (
    <section class="card tools" aria-label="What was done">
      <h2>What was done, in its order</h2>
      <ol>
        {log.map(({ step, did }, i) => {
          const amount = did === "set" && amounts(unit)[step];
          const place = `${LOG}/${i}`;
          return (
            <li key={i}>
              {sentence(`${nameOf(step)}: ${did}`)}
              {amount && <Fields sheet={sheet} at={place} of={[amount]} />}
              <GroupFaults sheet={sheet} places={unseen(amount).map((field) => place + field)} />
              <Out sheet={sheet} list={LOG} rows={log} i={i} name={`entry ${i + 1}`} />
            </li>
          );
        })}
      </ol>
    </section>
  );
}

/** What of an entry has no field: an amount may be written where nothing was set. */
const unseen = (amount: Asked | false | undefined) =>
  ["", "/step", "/did", "/lash", "/dwell", "/spark"].filter((field) => field !== `/${amount && amount[0]}`);
