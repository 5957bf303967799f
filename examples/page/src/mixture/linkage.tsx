// The throttles of a job: how many, which the others are set to, what joins them; and screws that were tried.

import { useState } from "preact/hooks";
import { asText, at } from "../draft";
import { GroupFaults, type Sheet } from "../field";
import { Choose, Fields, Group, Rows, standIn } from "../fields";
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
      <Fields
        sheet={sheet}
        at={PLACE}
        of={[
          <Count sheet={sheet} names={names} />,
          <ReadIn sheet={sheet} />,
          names.length > 0 && [
            "reference",
            "The others are set to",
            [["", "choose …"], ...names.map((name): Names => [name, name])],
          ],
        ]}
      />
      {names.length > 0 && (
        <Group title="What joins them">
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
          <Choose
            sheet={sheet}
            at={`${PLACE}/screws_alike`}
            label="One turn of any screw does as much as one of any other"
            choices={{ "": "not known", true: "yes, the same thread and lever", false: "no" }}
          />
        </Group>
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
  return (
    <Choose
      sheet={standIn(sheet, PLACE, "count", names.length > 0 ? `${names.length}` : "", write)}
      at="/count"
      label="Carburettors or throttles"
      choices={[["", "choose …"], ...COUNTS]}
    />
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
  const said = by === "flow" ? FLOW : asText(at(document, `${PLACE}/unit`)) || "kpa";
  return (
    <Choose
      sheet={standIn(sheet, PLACE, "in", said, write)}
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
    <Fields
      look="part"
      sheet={sheet}
      at={place}
      of={[
        ["between/0", `Joint ${i + 1}: between`, choices],
        ["between/1", "and", choices],
        ["by", "They are joined by", { screw: "a screw that is turned", shaft: "one shaft: no screw" }],
        joint.by === "screw" && [
          "clockwise",
          "Turned clockwise, it",
          { "": "not known", opens: "opens the farther one", shuts: "shuts the farther one" },
        ],
        <GroupFaults sheet={sheet} places={[place, `${place}/between`]} />,
      ]}
    />
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
  const screw = (number: number) => {
    const place = `${list}/${number - 1}/between`;
    const write = (name: unknown) =>
      sheet.write(
        place,
        screws.find((pair) => nameOf(pair) === name),
      );
    return (
      <>
        <Choose
          sheet={standIn(sheet, place, "screw", nameOf(rows[number - 1]?.between ?? []), write)}
          at="/screw"
          label={`Trial ${number}: screw`}
          choices={screws.map((pair): Names => [nameOf(pair), nameOf(pair)])}
        />
        <GroupFaults sheet={sheet} places={[place]} />
      </>
    );
  };
  return (
    <Group
      title="Screws that were tried"
      hint="Read, turn a screw by a known part of a turn, read again: then it is told how far to turn."
    >
      <Rows
        sheet={sheet}
        list={list}
        item={(number) => `trial ${number}`}
        of={(number) => [
          screw(number),
          ["turn", "Turned clockwise by", "deg"],
          ["before", "One beyond showed", unit],
          ["after", "And after it", unit],
          ["unmoved_before", "One not moved showed", unit],
          ["unmoved_after", "And that after", unit],
        ]}
        add={
          screws.length > 0 ? [["Add a trial", { between: screws[0], turn: "", before: "", after: "" }]] : []
        }
      />
      <p class="hint">A minus before the turn for anticlockwise.</p>
    </Group>
  );
}
