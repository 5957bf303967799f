// Past services, typed or opened: when each was, and what was found and left at every valve.

import type { VNode } from "preact";
import { useState } from "preact/hooks";
import { PRESSURE_UNITS, pressureOf } from "../condition/units";
import { asText, at } from "../draft";
import { Faults, GroupFaults, Line, problemsAt, type Sheet } from "../field";
import { Fields, Fold, Out, type Asked } from "../fields";
import { asTheyStand, BTDC, YES_OR_NO } from "../ignition/lists";
import { keyed } from "../keyed";
import { count } from "../words";

const SERVICES = "/history/services";
/** How a day is written. */
const DAY = "2019-04-27";

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
      <Fold
        title="How time is counted; units; fuel and seats"
        sheet={sheet}
        of={[
          [
            "/history/counted_by",
            "Time is counted by",
            { "": "what all services say", hours: "hours run", distance: "distance", days: "the day" },
          ],
          [
            "/history/distance_unit",
            "Distances are said in",
            { "": "as the services have it", km: "km", mi: "mi" },
          ],
          ["/history/gauge_unit", "Pressures are said in", [["", "as in the condition"], ...PRESSURE_UNITS]],
          ["/history/bedding_in", "New parts bed in for", "text", "", "500 km"],
          ["/history/seats/unleaded", "Fuel without lead", YES_OR_NO],
          ["/history/seats/hard_seats", "Exhaust seats made for it", YES_OR_NO],
          ["/history/seats/runs_fast", "Runs fast for long", YES_OR_NO],
        ]}
        faults={["/history/counted_by", "/history/bedding_in"]}
      />
      <Known sheet={sheet} services={services} />
    </section>
  );
}

const KNOWN = "/history/known";

/** The record as it was last seen: from then on it only grows. */
function Known({ sheet, services }: { sheet: Sheet; services: readonly unknown[] }) {
  const known = at(sheet.document, KNOWN) as unknown[] | undefined;
  return (
    <Fold
      title={`The record as it was last seen (${known ? count(known.length, "service") : "not kept"})`}
      hint="With it, what is lost or changed since then is told."
    >
      <div class="row">
        <button type="button" onClick={() => sheet.write(KNOWN, services)}>
          Keep the services as they are now
        </button>
        {known && (
          <button type="button" class="quiet" onClick={() => sheet.write(KNOWN, undefined)}>
            Forget what was kept
          </button>
        )}
      </div>
      <Faults id="known.faults" problems={problemsAt(sheet.problems, KNOWN)} />
    </Fold>
  );
}

/** What else a service may have read: each by its list, its words and its unit, and whether a cylinder has its own. */
const meters = (gauge: string) =>
  [
    ["dwell", "Dwell", "deg", false],
    ["timing", "Ignition point", BTDC, false],
    ["compression", "compression", gauge, true],
    ["leak_area", "leak", "mm2", true],
  ] as const;

function Service({ sheet, unit, warmth, i }: Props & { i: number }) {
  const place = `${SERVICES}/${i}`;
  const gauge = pressureOf(
    at(sheet.document, "/history/gauge_unit") ?? at(sheet.document, "/condition/compression/unit"),
  );
  return (
    <>
      <Fields
        sheet={sheet}
        at={place}
        of={[
          ["date", `Service ${i + 1}: date`, "text", "", DAY],
          ["hours", "Hours run", "h"],
          ["distance", "Distance run", distanceOf(sheet)],
          ["temperature", "Metal was at", warmth],
        ]}
      />
      {valvesOf(sheet).map((valve) => (
        <Visit key={valve.name} sheet={sheet} list={`${place}/lash`} valve={valve} unit={unit} read={LASH} />
      ))}
      <Fold title="Dwell, timing, compression, leaks">
        {meters(gauge).flatMap(([list, words, unit, isSingly]) =>
          (isSingly ? asTheyStand(sheet) : [""]).map((cylinder) => (
            <Visit
              key={list + cylinder}
              sheet={sheet}
              list={`${place}/${list}`}
              valve={{ name: isSingly ? `${cylinder} ${words}` : words, key: { cylinder } }}
              unit={unit}
              read={METER}
            />
          )),
        )}
      </Fold>
      <GroupFaults sheet={sheet} places={[place]} />
    </>
  );
}

interface Valve {
  name: string;
  key: Record<string, unknown>;
}

/** Every valve of the engine, by the name that it has in a list of readings. */
function valvesOf(sheet: Sheet): Valve[] {
  const many = (kind: string) => Number(at(sheet.document, `/clearance/valves/${kind}_per_cylinder`) ?? 1);
  return asTheyStand(sheet).flatMap((cylinder) =>
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

const distanceOf = ({ document }: Sheet) => asText(at(document, "/history/distance_unit")) || "km";

/** How a reading is asked for: a lash may be by leaves, a meter shows one number. */
type Read = (sheet: Sheet, place: string, label: string, unit: string) => Asked | VNode;

const LASH: Read = (sheet, place, label, unit) => (
  <Lash sheet={sheet} place={place} label={label} unit={unit} />
);
const METER: Read = (_, place, label, unit) => [`${place}/shows`, label, unit];

interface VisitProps {
  sheet: Sheet;
  list: string;
  valve: Valve;
  unit: string;
  read: Read;
}

function Visit({ sheet: whole, list, valve: { name, key }, unit, read }: VisitProps) {
  const { sheet, place } = keyed(whole, list, key);
  const isRead = at(sheet.document, place) !== undefined;
  const isLeft = ["left", "left_at"].some((part) => at(sheet.document, `${place}/${part}`) !== undefined);
  return (
    <div class="part">
      <Fields
        sheet={sheet}
        at={place}
        of={[
          read(sheet, `${place}/found`, `${name}, found`, unit),
          isRead && read(sheet, `${place}/left`, `${name}, left`, unit),
          isRead && ["done", `${name} was`, DONE],
        ]}
      />
      {isLeft && (
        <Fold
          title={`${name}: left was read later`}
          hint="Where it was not read at the service itself."
          sheet={sheet}
          at={`${place}/left_at`}
          of={[
            ["date", `${name}, left read on`, "text", "", DAY],
            ["hours", `${name}, left read at hours`, "h"],
            ["distance", `${name}, left read at distance`, distanceOf(sheet)],
          ]}
          faults={[`${place}/left_at`]}
        />
      )}
      <GroupFaults
        sheet={sheet}
        places={["", "/cylinder", "/number", "/found", "/left"].map((part) => place + part)}
      />
    </div>
  );
}

const DONE = {
  "": "not said",
  set: "set, its parts stayed",
  renewed: "set after parts were renewed, ground or retorqued",
};

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
    </div>
  );
}
