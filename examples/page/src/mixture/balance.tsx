// The balance board: what each throttle shows, beside the one that the others are set to; and what to turn.

import { asText, at } from "../draft";
import { GroupFaults, Line, Pick, type Sheet } from "../field";
import { Advice, Measured } from "../ignition/told";
import type { AnyReport, BalanceReport } from "../kernel";
import { Lines } from "../lines";
import type { CardProps } from "../steps/view";
import { sentence } from "../words";
import { Plank, ScrewHead } from "./board";
import { LinkageForm, namesOf, PLACE, readBy, TrialsForm, unitOf } from "./linkage";

export function BalanceCard({ sheet, report }: CardProps) {
  const names = namesOf(sheet.document);
  const by = readBy(sheet.document);
  const found = report?.mixture?.balance;
  return (
    <>
      <LinkageForm sheet={sheet} />
      {names.length > 0 && (
        <>
          <BalanceVerdict found={found} />
          <ol class="plain" aria-label="Throttles">
            {names.map((name) => (
              <Row key={name} sheet={sheet} name={name} names={names} found={found} />
            ))}
          </ol>
          <GroupFaults sheet={sheet} places={[PLACE, `${PLACE}/${by}`, `${PLACE}/${by}/readings`]} />
          <BalanceToDo found={found} />
          <HowSure sheet={sheet} />
          <BeforehandForm sheet={sheet} />
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
      <ul class="plain">
        {found.throttles.map((throttle) => (
          <li key={throttle.name}>
            {sentence(throttle.text)}
            <Plank found={found} throttle={throttle} />
          </li>
        ))}
      </ul>
      <BalanceToDo found={found} />
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
      <Lines look="plain" lines={[...found.shafts, ...found.cylinders]} />
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

/** What is looked at beforehand, besides the steps of the work. */
const BEFOREHAND = {
  compression: "Compression, every cylinder",
  sealing: "No air drawn in behind a throttle",
  idle_speed: "Idle speed",
};

function BeforehandForm({ sheet }: OfSheet) {
  return (
    <fieldset class="group">
      <legend>What must be right beforehand</legend>
      <div class="fields narrow">
        {Object.entries(BEFOREHAND).map(([what, label]) => (
          <Pick
            key={what}
            sheet={sheet}
            at={`${PLACE}/beforehand/${what}`}
            label={label}
            choices={[
              ["", "not looked at"],
              ["right", "right"],
              ["not_right", "not right"],
            ]}
          />
        ))}
        <Line
          sheet={sheet}
          at={`${PLACE}/cylinders/set_alike`}
          label="All opened alike by pin or feeler: ± share, as 0.02"
          kind="number"
        />
      </div>
      <p class="hint">With the last it is told whether a difference is the throttle's or the cylinder's.</p>
      <GroupFaults sheet={sheet} places={[`${PLACE}/cylinders`]} />
    </fieldset>
  );
}

/** How far single looks differ, and what is allowed. */
function HowSure({ sheet }: OfSheet) {
  const place = `${PLACE}/${readBy(sheet.document)}`;
  const unit = unitOf(sheet.document);
  const swings = asText(at(sheet.document, `${place}/swing/from`)) !== "";
  return (
    <fieldset class="group">
      <legend>Allowed, and how sure a look is</legend>
      <div class="fields narrow">
        <Line sheet={sheet} at={`${place}/allowed`} label="Book: apart by at most" unit={unit} />
        {!swings && <Line sheet={sheet} at={`${place}/scatter`} label="± of one look" unit={unit} />}
        <Line sheet={sheet} at={`${place}/swing/from`} label="Needle swings from" unit={unit} />
        <Line sheet={sheet} at={`${place}/swing/to`} label="Needle swings to" unit={unit} />
        <Line sheet={sheet} at={`${place}/between_gauges`} label="± from gauge to gauge" unit={unit} />
      </div>
      <p class="hint">
        Without ± and swing it is seen from several looks. The last only if each throttle has a gauge of its
        own.
      </p>
      <GroupFaults sheet={sheet} places={[`${place}/swing`]} />
    </fieldset>
  );
}
