// The balance board: what each throttle shows, beside the one that the others are set to; and what to turn.

import { asText, at } from "../draft";
import { GroupFaults, Line, Pick, type Sheet } from "../field";
import { Fields, Fold, Group, type Asked } from "../fields";
import { Advice, Measured } from "../ignition/told";
import type { AnyReport, BalanceReport } from "../kernel";
import { Lines } from "../lines";
import type { CardProps } from "../steps/view";
import { RULES, sentence } from "../words";
import { Plank, ScrewHead } from "./board";
import { LinkageForm, namesOf, PLACE, readBy, TrialsForm, unitOf } from "./linkage";

export function BalanceCard({ sheet, report }: CardProps) {
  const names = namesOf(sheet.document);
  const by = readBy(sheet.document);
  const found = report?.mixture?.balance;
  return (
    <>
      <BalanceVerdict found={found} />
      <BalanceToDo found={found} />
      <Cylinders found={found} />
      <LinkageForm sheet={sheet} />
      {names.length > 0 && (
        <>
          <ol class="plain" aria-label="Throttles">
            {names.map((name) => (
              <Row key={name} sheet={sheet} name={name} names={names} found={found} />
            ))}
          </ol>
          <GroupFaults sheet={sheet} places={[PLACE, `${PLACE}/${by}`, `${PLACE}/${by}/readings`]} />
          <HowSure sheet={sheet} />
          <BeforehandForm sheet={sheet} />
          <CylindersForm sheet={sheet} names={names} />
          <TrialsForm sheet={sheet} />
        </>
      )}
    </>
  );
}

export function BalanceFound({ report }: { report: AnyReport | null }) {
  const found = report?.mixture?.balance;
  if (!found) return null;
  return (
    <>
      <BalanceVerdict found={found} />
      <BalanceToDo found={found} />
      <ul class="plain">
        {found.throttles.map((throttle) => (
          <li key={throttle.name}>
            {sentence(throttle.text)}
            <Plank found={found} throttle={throttle} />
          </li>
        ))}
      </ul>
      <Cylinders found={found} />
    </>
  );
}

interface Told {
  found: BalanceReport | null | undefined;
}

function BalanceVerdict({ found }: Told) {
  if (!found) return null;
  return (
    <section class="answer" aria-label="Balance: verdict">
      {found.spread ? (
        <Measured of="All throttles" judged={found.spread} />
      ) : (
        <p>
          <strong>{sentence(found.verdict_text)}</strong>
        </p>
      )}
      <Lines look="plain" lines={found.shafts} />
    </section>
  );
}

/** Whether a difference is the throttle's or the cylinder's. */
function Cylinders({ found }: Told) {
  if (!found || found.cylinders.length === 0) return null;
  return (
    <section class="answer" aria-label="Balance: throttles and cylinders">
      <Lines look="plain" lines={found.cylinders} />
    </section>
  );
}

/** What must be sure, then screw after screw in the order that leaves what is done as it is. */
function BalanceToDo({ found }: Told) {
  if (!found) return null;
  const { advice, turns, next } = found;
  const isAsked = advice.action === "measure" && next != null && advice.text.includes(next);
  return (
    <section class="answer" aria-label="Balance: what to do">
      {advice.action === "set" && turns.length > 0 ? (
        <>
          <p>First make sure:</p>
          <Lines lines={advice.first} />
          <ol class="plain">
            {turns.map((turn, i) => (
              <li key={turn.text} class="where part">
                <ScrewHead turn={turn} />
                <p class="do">
                  {turns.length > 1 && `${i + 1}. `}
                  {sentence(turn.text)}
                </p>
              </li>
            ))}
          </ol>
          <p>{sentence(`then it reads ${advice.then_reads}`)}</p>
        </>
      ) : (
        <Advice advice={advice} />
      )}
      {next && !isAsked && <p>Next reading worth taking: {sentence(next)}</p>}
    </section>
  );
}

interface RowProps extends Told, OfSheet {
  name: string;
  names: readonly string[];
}

type OfSheet = { sheet: Sheet };

/** One throttle: its plank, and a field for each time somebody looked, one of them still empty. */
function Row({ sheet, name, names, found }: RowProps) {
  const list = `${PLACE}/${readBy(sheet.document)}/readings`;
  const lists = (at(sheet.document, list) ?? []) as { throttle?: string; shows?: unknown[] }[];
  const own = lists.findIndex(({ throttle }) => throttle === name);
  const looks = (of: string) => lists.find(({ throttle }) => throttle === of)?.shows?.length ?? 0;
  // A new round begins when every throttle has been looked at.
  const fields = Math.max(looks(name), Math.min(...names.map(looks)) + 1);
  const throttle = found?.throttles.find((one) => one.name === name);
  const unit = unitOf(sheet.document);
  // A document may lack the list of a throttle that is not read yet.
  const rows: Sheet =
    own < 0
      ? { ...sheet, write: (_, shown) => sheet.write(list, [...lists, { throttle: name, shows: [shown] }]) }
      : sheet;
  return (
    <li class="part">
      <p class="plank">
        <strong>{throttle ? sentence(throttle.text) : `${name}.`}</strong>
      </p>
      {found && throttle && <Plank found={found} throttle={throttle} />}
      <div class="fields narrow">
        {Array.from({ length: fields }, (_, look) => (
          <Line
            key={look}
            sheet={rows}
            at={`${list}/${own < 0 ? lists.length : own}/shows/${look}`}
            label={`${name}, look ${look + 1}`}
            unit={unit}
          />
        ))}
      </div>
    </li>
  );
}

const FOUND = [
  ["", "not looked at"],
  ["right", "right"],
  ["not_right", "not right"],
] as const;

/** What is looked at beforehand, besides the steps of the work. */
const BEFOREHAND = {
  compression: "Compression, every cylinder",
  sealing: "No air drawn in behind a throttle",
  idle_speed: "Idle speed",
};

function BeforehandForm({ sheet }: OfSheet) {
  return (
    <Group title="What must be right beforehand">
      <Fields
        sheet={sheet}
        at={PLACE}
        of={[
          ...Object.entries(BEFOREHAND).map(([what, label]): Asked => [`beforehand/${what}`, label, FOUND]),
          ["cylinders/set_alike", "All opened alike by pin or feeler: ± share, as 0.02", "number"],
        ]}
      />
      <p class="hint">With the last it is told whether a difference is the throttle's or the cylinder's.</p>
      <GroupFaults sheet={sheet} places={[`${PLACE}/cylinders`]} />
    </Group>
  );
}

/** What is looked at on the cylinder behind a throttle. */
const SINGLY = {
  compression: "compression",
  clearances: "valve clearances",
  sealing: "no air drawn in",
};

/** What was found of single cylinders: what is wrong there is no matter of a screw. */
function CylindersForm({ sheet, names }: OfSheet & { names: readonly string[] }) {
  const list = `${PLACE}/cylinders/found`;
  const found = (at(sheet.document, list) ?? []) as { throttle?: string }[];
  return (
    <Fold title="What was found of single cylinders">
      {names.map((name, i) => {
        const own = found.findIndex(({ throttle }) => throttle === name);
        const place = `${list}/${own}`;
        // A document may lack the entry of a cylinder that is not looked at yet: fields stand by the throttles.
        const rows: Sheet = {
          ...sheet,
          document: { singly: { [i]: found[own] } },
          problems: sheet.problems
            .filter((problem) => problem.place.startsWith(`${place}/`))
            .map((problem) => ({ ...problem, place: problem.place.replace(place, `/singly/${i}`) })),
          write: (pointer, value) => {
            const what = pointer.replace(`/singly/${i}/`, "");
            const { throttle: _, ...said } = { throttle: name, ...found[own], [what]: value };
            const isSaid = Object.values(said).some((word) => word !== undefined);
            const rest = found.filter((_, other) => other !== own);
            const all = isSaid ? [...rest, { throttle: name, ...said }] : rest;
            sheet.write(list, all.length > 0 ? all : undefined);
          },
        };
        return (
          <div class="fields narrow part" key={name}>
            {Object.entries(SINGLY).map(([what, label]) => (
              <Pick
                key={what}
                sheet={rows}
                at={`/singly/${i}/${what}`}
                label={`Cylinder of ${name}: ${label}`}
                choices={FOUND}
              />
            ))}
          </div>
        );
      })}
      <GroupFaults sheet={sheet} places={[list, ...found.map((_, i) => `${list}/${i}/throttle`)]} />
      <p class="hint">It is judged with the flow of each, or with how alike they were opened.</p>
    </Fold>
  );
}

/** How far single looks differ, and what is allowed. */
function HowSure({ sheet }: OfSheet) {
  const place = `${PLACE}/${readBy(sheet.document)}`;
  const unit = unitOf(sheet.document);
  const swings = asText(at(sheet.document, `${place}/swing/from`)) !== "";
  return (
    <Group title="Allowed, and how sure a look is">
      <Fields
        sheet={sheet}
        at={place}
        of={[
          ["allowed", "Book: apart by at most", unit],
          !swings && ["scatter", "± of one look", unit],
          ["swing/from", "Needle swings from", unit],
          ["swing/to", "Needle swings to", unit],
          ["between_gauges", "± from gauge to gauge", unit],
          [
            `${PLACE}/rule`,
            "Strictness",
            [
              ["", "not said"],
              ["simple", RULES.simple[0]],
              ["iso_14253_1", RULES.iso_14253_1[0]],
            ],
          ],
        ]}
      />
      <p class="hint">
        Without ± and swing it is seen from several looks. The last only if each throttle has a gauge of its
        own.
      </p>
      <GroupFaults sheet={sheet} places={[`${place}/swing`]} />
    </Group>
  );
}
