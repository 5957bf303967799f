// Past services, typed or opened: when each was, and what was found and left at every valve.

import { useState } from "preact/hooks";
import { asText, at } from "../draft";
import { GroupFaults, Line, Pick, type Sheet } from "../field";
import { Out, truths, YES_OR_NO } from "../ignition/lists";
import { keyed } from "../keyed";

const SERVICES = "/history/services";

interface Props {
  sheet: Sheet;
  unit: "mm" | "in";
  warmth: "C" | "F";
}

export function Services(props: Props) {
  const { sheet } = props;
  const services = (at(sheet.document, SERVICES) ?? []) as Record<string, unknown>[];
  const [added, setAdded] = useState(-1);
  const faults = (i: number) => sheet.problems.some(({ place }) => place.startsWith(`${SERVICES}/${i}/`));
  return (
    <section class="card" aria-label="Services">
      <h2>Services</h2>
      <p class="hint">In the order of time. What is read at the valves now counts as the last one.</p>
      {services.map((service, i) => (
        <details class="small" key={i} open={faults(i) || i === added}>
          <summary>
            {[service.date, service.hours, service.distance].filter(Boolean).join(", ") || `Service ${i + 1}`}
          </summary>
          <Service {...props} i={i} />
          <Out sheet={sheet} list={SERVICES} rows={services} i={i} name={`service ${i + 1}`} />
        </details>
      ))}
      <GroupFaults sheet={sheet} places={["/history", SERVICES]} />
      <button
        type="button"
        onClick={() => (setAdded(services.length), sheet.write(SERVICES, [...services, { date: "" }]))}
      >
        Add a service
      </button>
      <details class="small">
        <summary>How time is counted; fuel and seats</summary>
        <div class="fields narrow">
          <Pick
            sheet={sheet}
            at="/history/counted_by"
            label="Time is counted by"
            choices={[
              ["", "what all services say"],
              ["hours", "hours run"],
              ["distance", "distance"],
              ["days", "the day"],
            ]}
          />
          <Line
            sheet={sheet}
            at="/history/bedding_in"
            label="New parts bed in for"
            kind="text"
            placeholder="500 km"
          />
          <Pick
            sheet={truths(sheet)}
            at="/history/seats/unleaded"
            label="Fuel without lead"
            choices={YES_OR_NO}
          />
          <Pick
            sheet={truths(sheet)}
            at="/history/seats/hard_seats"
            label="Exhaust seats made for it"
            choices={YES_OR_NO}
          />
          <Pick
            sheet={truths(sheet)}
            at="/history/seats/runs_fast"
            label="Runs fast for long"
            choices={YES_OR_NO}
          />
        </div>
        <GroupFaults sheet={sheet} places={["/history/counted_by", "/history/bedding_in"]} />
      </details>
    </section>
  );
}

function Service({ sheet, unit, warmth, i }: Props & { i: number }) {
  const place = `${SERVICES}/${i}`;
  return (
    <>
      <div class="fields narrow">
        <Line
          sheet={sheet}
          at={`${place}/date`}
          label={`Service ${i + 1}: date`}
          kind="text"
          placeholder="2019-04-27"
        />
        <Line sheet={sheet} at={`${place}/hours`} label="Hours run" unit="h" />
        <Line sheet={sheet} at={`${place}/distance`} label="Distance run" unit="km" />
        <Line sheet={sheet} at={`${place}/temperature`} label="Metal was at" unit={warmth} />
      </div>
      {valvesOf(sheet.document).map((valve) => (
        <Visit key={valve.name} sheet={sheet} list={`${place}/lash`} valve={valve} unit={unit} />
      ))}
      <GroupFaults sheet={sheet} places={[place]} />
    </>
  );
}

interface Valve {
  name: string;
  key: Record<string, unknown>;
}

/** Every valve of the engine, by the name that it has in a list of readings. */
function valvesOf(document: unknown): Valve[] {
  const cylinders = (at(document, "/engine/cylinders") ?? []) as { label: string }[];
  const many = (kind: string) => Number(at(document, `/clearance/valves/${kind}_per_cylinder`) ?? 1);
  return cylinders.flatMap(({ label: cylinder }) =>
    ["intake", "exhaust"].flatMap((valve) =>
      Array.from({ length: many(valve) }, (_, n) => {
        const isOne = many(valve) === 1;
        return {
          name: `${cylinder} ${valve}${isOne ? "" : ` ${n + 1}`}`,
          key: { cylinder, valve, ...(!isOne && { number: n + 1 }) },
        };
      }),
    ),
  );
}

interface VisitProps {
  sheet: Sheet;
  list: string;
  valve: Valve;
  unit: "mm" | "in";
}

function Visit({ sheet: whole, list, valve: { name, key }, unit }: VisitProps) {
  const { sheet, place } = keyed(whole, list, key);
  const isRead = at(sheet.document, place) !== undefined;
  return (
    <div class="fields narrow part">
      <Lash sheet={sheet} place={`${place}/found`} label={`${name}, found`} unit={unit} />
      {isRead && (
        <>
          <Lash sheet={sheet} place={`${place}/left`} label={`${name}, left`} unit={unit} />
          <Pick
            sheet={sheet}
            at={`${place}/done`}
            label={`${name} was`}
            choices={[
              ["", "not said"],
              ["set", "set, its parts stayed"],
              ["renewed", "set after parts were renewed, ground or retorqued"],
            ]}
          />
        </>
      )}
      <GroupFaults sheet={sheet} places={[place, `${place}/cylinder`, `${place}/number`]} />
    </div>
  );
}

const FELT = { goes: "goes", refuses: "does not go", drags: "drags" };

/** A lash as it was written down: a number, or by leaves where a document has it so. */
function Lash({ sheet, place, label, unit }: { sheet: Sheet; place: string; label: string; unit: string }) {
  const felt = Object.entries(FELT).filter(([field]) => asText(at(sheet.document, `${place}/${field}`)));
  return (
    <div>
      {felt.length === 0 ? (
        <Line sheet={sheet} at={`${place}/lash`} label={label} unit={unit} />
      ) : (
        felt.map(([field, words]) => (
          <Line key={field} sheet={sheet} at={`${place}/${field}`} label={`${label}: ${words}`} unit={unit} />
        ))
      )}
      <GroupFaults sheet={sheet} places={[place]} />
    </div>
  );
}
