// The throttles of a job: how many, which the others are set to, what joins them; and screws that were tried.

import { useState } from "preact/hooks";
import { asText, at } from "../draft";
import { GroupFaults, Line, Pick, type Sheet } from "../field";
import { Out, truths } from "../ignition/lists";
import { VACUUM, vacuumOf, VACUUM_UNITS } from "./units";

export const PLACE = "/mixture/balance";

/** Flow among the units that throttles are read in. */
const FLOW = "kg/h";

type Names = [string, string];
interface Joint {
  between?: Names;
  by?: string;
}
type Balance = Record<string, unknown>;

const balanceOf = (document: unknown) => (at(document, PLACE) ?? {}) as Balance;

export const namesOf = (document: unknown): string[] =>
  ((at(document, `${PLACE}/throttles`) ?? []) as unknown[]).map(String);

/** What the throttles are read by. */
export const readBy = (document: unknown): "vacuum" | "flow" =>
  at(document, `${PLACE}/flow`) === undefined ? "vacuum" : "flow";

export const unitOf = (document: unknown): string =>
  readBy(document) === "flow" ? FLOW : vacuumOf(at(document, `${PLACE}/unit`));

/** A list for every throttle; what was read of those that stay is kept. */
function listsOf(document: unknown, names: readonly string[]) {
  const before = (at(document, `${PLACE}/${readBy(document)}/readings`) ?? []) as {
    throttle?: string;
    shows?: unknown[];
  }[];
  return names.map((throttle) => before.find((one) => one.throttle === throttle) ?? { throttle, shows: [] });
}

const MOST = 12;
const COUNTS: [string, string][] = Array.from({ length: MOST - 1 }, (_, i) => [`${i + 2}`, `${i + 2}`]);

export function LinkageForm({ sheet }: { sheet: Sheet }) {
  const { document } = sheet;
  // Open as long as nothing is read, and as it was left afterwards: nothing moves while readings are typed.
  const [isOpen] = useState(() => !isRead(document));
  const names = namesOf(document);
  const joints = (at(document, `${PLACE}/joints`) ?? []) as Joint[];
  const reference = asText(at(document, `${PLACE}/reference`));
  return (
    <details class="small" open={isOpen}>
      <summary>
        {names.length > 0
          ? `${names.length} throttles, set to ${reference || "…"}, in ${unitOf(document)}`
          : "Throttles and what joins them"}
      </summary>
      <div class="fields narrow">
        <Count sheet={sheet} names={names} />
        <ReadIn sheet={sheet} />
        {names.length > 0 && (
          <Pick
            sheet={sheet}
            at={`${PLACE}/reference`}
            label="The others are set to"
            choices={[["", "choose …"], ...names.map((name): Names => [name, name])]}
          />
        )}
      </div>
      {names.length > 0 && (
        <fieldset class="group">
          <legend>What joins them</legend>
          <div class="row">
            <button type="button" onClick={() => sheet.write(`${PLACE}/joints`, inARow(names))}>
              A screw between neighbours
            </button>
            <button
              type="button"
              disabled={!names.includes(reference)}
              onClick={() => sheet.write(`${PLACE}/joints`, toOne(names, reference))}
            >
              Each to the reference by its own screw
            </button>
          </div>
          {joints.length > 0 && (
            <p class="hint">The farther one lies beyond the screw, seen from the reference.</p>
          )}
          {joints.map((joint, i) => (
            <JointForm key={i} sheet={sheet} names={names} joint={joint} i={i} />
          ))}
          <GroupFaults sheet={sheet} places={[`${PLACE}/joints`, `${PLACE}/throttles`]} />
          <Pick
            sheet={truths(sheet)}
            at={`${PLACE}/screws_alike`}
            label="One turn of any screw does as much as one of any other"
            choices={[
              ["", "not known"],
              ["true", "yes, the same thread and lever"],
              ["false", "no"],
            ]}
          />
        </fieldset>
      )}
    </details>
  );
}

const isRead = (document: unknown): boolean =>
  listsOf(document, namesOf(document)).some(({ shows }) => (shows?.length ?? 0) > 0);

function Count({ sheet, names }: { sheet: Sheet; names: readonly string[] }) {
  const write = (count: unknown) => {
    const { document } = sheet;
    const all = Array.from({ length: Number(count ?? 0) }, (_, i) => names[i] ?? `${i + 1}`);
    if (all.length === 0) return sheet.write(PLACE, undefined);
    const by = readBy(document);
    const { [by]: read, reference, ...rest } = balanceOf(document);
    sheet.write(PLACE, {
      ...rest,
      throttles: all,
      reference: all.includes(String(reference)) ? reference : "",
      joints: inARow(all),
      [by]: { ...(read as object), readings: listsOf(document, all) },
    });
  };
  const own: Sheet = {
    ...sheet,
    document: { count: names.length > 0 ? `${names.length}` : "" },
    problems: [],
    form: PLACE,
    write: (_, count) => write(count),
  };
  return (
    <Pick sheet={own} at="/count" label="Carburettors or throttles" choices={[["", "choose …"], ...COUNTS]} />
  );
}

function ReadIn({ sheet }: { sheet: Sheet }) {
  const { document } = sheet;
  const by = readBy(document);
  const write = (unit: unknown) => {
    const { vacuum, flow, unit: _, ...rest } = balanceOf(document);
    // What was read in the other way says nothing in this one.
    const begun = { readings: namesOf(document).map((throttle) => ({ throttle, shows: [] })) };
    if (unit === FLOW) return sheet.write(PLACE, { ...rest, flow: flow ?? begun });
    sheet.write(PLACE, { ...rest, unit: unit ?? "kpa", vacuum: vacuum ?? begun });
  };
  const own: Sheet = {
    ...sheet,
    document: { in: by === "flow" ? FLOW : asText(at(document, `${PLACE}/unit`)) || "kpa" },
    problems: [],
    form: PLACE,
    write: (_, unit) => write(unit),
  };
  return (
    <Pick
      sheet={own}
      at="/in"
      label="Read in"
      choices={[
        ...VACUUM_UNITS.map(([unit]): Names => [unit, `vacuum, ${VACUUM[unit as keyof typeof VACUUM]}`]),
        [FLOW, `flow, ${FLOW}`],
      ]}
    />
  );
}

const inARow = (names: readonly string[]) =>
  names.slice(1).map((name, i) => ({ between: [names[i], name], by: "screw" }));

const toOne = (names: readonly string[], reference: string) =>
  names.filter((name) => name !== reference).map((name) => ({ between: [reference, name], by: "screw" }));

interface JointProps {
  sheet: Sheet;
  names: readonly string[];
  joint: Joint;
  i: number;
}

function JointForm({ sheet, names, joint, i }: JointProps) {
  const place = `${PLACE}/joints/${i}`;
  const choices = names.map((name): Names => [name, name]);
  return (
    <div class="fields narrow part">
      <Pick sheet={sheet} at={`${place}/between/0`} label={`Joint ${i + 1}: between`} choices={choices} />
      <Pick sheet={sheet} at={`${place}/between/1`} label="and" choices={choices} />
      <Pick
        sheet={sheet}
        at={`${place}/by`}
        label="They are joined by"
        choices={[
          ["screw", "a screw that is turned"],
          ["shaft", "one shaft: no screw"],
        ]}
      />
      {joint.by === "screw" && (
        <Pick
          sheet={sheet}
          at={`${place}/clockwise`}
          label="Turned clockwise, it"
          choices={[
            ["", "not known"],
            ["opens", "opens the farther one"],
            ["shuts", "shuts the farther one"],
          ]}
        />
      )}
      <GroupFaults sheet={sheet} places={[place, `${place}/between`]} />
    </div>
  );
}

const nameOf = ([one, other]: readonly string[]) => `${one} – ${other}`;

/** Screws turned by a known amount, and what that did. */
export function TrialsForm({ sheet }: { sheet: Sheet }) {
  const { document } = sheet;
  const list = `${PLACE}/${readBy(document)}/trials`;
  const rows = (at(document, list) ?? []) as { between?: string[] }[];
  const joints = (at(document, `${PLACE}/joints`) ?? []) as Joint[];
  const screws = joints.flatMap(({ by, between }) => (by === "screw" && between ? [between] : []));
  const unit = unitOf(document);
  if (screws.length === 0 && rows.length === 0) return null;
  const begun = { between: screws[0], turn: "", before: "", after: "" };
  return (
    <fieldset class="group">
      <legend>Screws that were tried</legend>
      <p class="hint">
        Read, turn a screw by a known part of a turn, read again: then it is told how far to turn.
      </p>
      {rows.map(({ between = [] }, i) => {
        const place = `${list}/${i}`;
        const own: Sheet = {
          ...sheet,
          document: { screw: nameOf(between) },
          problems: [],
          form: place,
          write: (_, name) =>
            sheet.write(
              `${place}/between`,
              screws.find((pair) => nameOf(pair) === name),
            ),
        };
        return (
          <div class="fields narrow part" key={i}>
            <Pick
              sheet={own}
              at="/screw"
              label={`Trial ${i + 1}: screw`}
              choices={screws.map((pair): Names => [nameOf(pair), nameOf(pair)])}
            />
            <Line sheet={sheet} at={`${place}/turn`} label="Turned clockwise by" unit="deg" />
            <Line sheet={sheet} at={`${place}/before`} label="One beyond showed" unit={unit} />
            <Line sheet={sheet} at={`${place}/after`} label="And after it" unit={unit} />
            <Line sheet={sheet} at={`${place}/unmoved_before`} label="One not moved showed" unit={unit} />
            <Line sheet={sheet} at={`${place}/unmoved_after`} label="And that after" unit={unit} />
            <GroupFaults sheet={sheet} places={[place, `${place}/between`]} />
            <Out sheet={sheet} list={list} rows={rows} i={i} name={`trial ${i + 1}`} />
          </div>
        );
      })}
      <GroupFaults sheet={sheet} places={[list]} />
      {screws.length > 0 && (
        <button type="button" onClick={() => sheet.write(list, [...rows, begun])}>
          Add a trial
        </button>
      )}
      <p class="hint">A minus before the turn for anticlockwise.</p>
    </fieldset>
  );
}
