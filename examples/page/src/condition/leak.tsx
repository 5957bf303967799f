// Leak-down: the tester, what it showed of each cylinder and where it hissed, and how large each leak is.

import { at } from "../draft";
import { GroupFaults, Line, Pick, type Sheet } from "../field";
import { named, truths, YES_OR_NO } from "../ignition/lists";
import { Advice, Texts } from "../ignition/told";
import type { AnyReport } from "../kernel";
import { keyed } from "../keyed";
import type { CardProps } from "../steps/view";
import { sentence, VERDICTS } from "../words";
import { PRESSURE_UNITS, pressureOf } from "./units";

const PLACE = "/condition/leak";
const READ = `${PLACE}/readings`;
const TESTER = `${PLACE}/tester`;
const RULE = `${PLACE}/rule`;

const HISSES = {
  intake: "carburettor or air filter",
  exhaust: "exhaust",
  breather: "oil filler or breather",
  coolant: "bubbles in the coolant",
  gasket_edge: "edge of the head gasket",
};

export function LeakCard({ sheet, report, unit: length }: CardProps) {
  const unit = pressureOf(at(sheet.document, `${PLACE}/unit`));
  return (
    <>
      <p class="notice">
        Air in a cylinder turns the crank harder than a hand holds it: let it in slowly, hands and tools off.
      </p>
      <LeakFound report={report} />
      <fieldset class="group">
        <legend>The tester</legend>
        <p class="hint">
          Its orifice, or what it shows of a hole of known size: without one no leak is told.
        </p>
        <div class="fields narrow">
          <Pick
            sheet={sheet}
            at={`${PLACE}/unit`}
            label="Gauges are marked in"
            choices={[["", "choose …"], ...PRESSURE_UNITS]}
          />
          <Line sheet={sheet} at={`${TESTER}/supply`} label="Supply" unit={unit} />
          <Line sheet={sheet} at={`${TESTER}/orifice`} label="Orifice, across" unit={length} />
          <Pick
            sheet={truths(sheet)}
            at={`${TESTER}/orifice_of_bore`}
            label="Orifice is the one for this bore (AC 43.13-1B)"
            choices={[
              ["", "not said"],
              ["true", "yes"],
            ]}
          />
        </div>
        <details class="small">
          <summary>By a hole of known size; ±</summary>
          <div class="fields narrow">
            <Line sheet={sheet} at={`${TESTER}/master/hole`} label="Hole, across" unit={length} />
            <Line sheet={sheet} at={`${TESTER}/master/shows`} label="Tester shows of it" unit={unit} />
            <Line sheet={sheet} at={`${TESTER}/diameter_uncertainty`} label="± across" unit={length} />
            <Line sheet={sheet} at={`${TESTER}/supply_uncertainty`} label="± of the supply" unit={unit} />
            <Line sheet={sheet} at={`${PLACE}/gauge_uncertainty`} label="± of the gauge" unit={unit} />
          </div>
        </details>
        <GroupFaults sheet={sheet} places={[TESTER, `${TESTER}/master`]} />
      </fieldset>
      <fieldset class="group">
        <legend>What stood in each cylinder</legend>
        {named(sheet).map((cylinder) => (
          <Cylinder key={cylinder} sheet={sheet} cylinder={cylinder} unit={unit} />
        ))}
        <GroupFaults sheet={sheet} places={[PLACE, READ]} />
        <div class="fields narrow">
          <Pick
            sheet={truths(sheet)}
            at={`${PLACE}/warm`}
            label="Engine was warm, air in it"
            choices={YES_OR_NO}
          />
        </div>
      </fieldset>
      <fieldset class="group">
        <legend>What the book prints</legend>
        <div class="fields narrow">
          <Pick
            sheet={truths(sheet)}
            at={`${RULE}/of_bore`}
            label="60 of 80 psi, orifice for the bore (AC 43.13-1B)"
            choices={[
              ["", "no, or not said"],
              ["true", "yes"],
            ]}
          />
          <Line sheet={sheet} at={`${RULE}/least`} label="At least in the cylinder" unit={unit} />
          <Line sheet={sheet} at={`${RULE}/supply`} label="Of a supply of" unit={unit} />
          <Line sheet={sheet} at={`${RULE}/orifice`} label="Through an orifice of" unit={length} />
          <Pick
            sheet={sheet}
            at={`${PLACE}/by`}
            label="Held against"
            choices={[
              ["", "the area of the leak, by any tester"],
              ["face", "what the tester shows: the rule's own"],
            ]}
          />
        </div>
        <GroupFaults sheet={sheet} places={[RULE]} />
      </fieldset>
    </>
  );
}

function Cylinder({ sheet: whole, cylinder, unit }: { sheet: Sheet; cylinder: string; unit: string }) {
  const { sheet, place } = keyed(whole, READ, { cylinder });
  const isRead = at(sheet.document, place) !== undefined;
  return (
    <div class="part">
      <div class="fields narrow">
        <Line sheet={sheet} at={`${place}/shows`} label={`Cylinder ${cylinder}`} unit={unit} />
        {isRead && (
          <Pick
            sheet={truths(sheet)}
            at={`${place}/held`}
            label={`Cylinder ${cylinder}: held at top dead centre of compression`}
            choices={YES_OR_NO}
          />
        )}
      </div>
      {isRead && (
        <details class="small">
          <summary>Cylinder {cylinder}: where it hisses</summary>
          {Object.entries(HISSES).map(([word, label]) => (
            <Heard key={word} sheet={sheet} list={`${place}/hisses`} word={word} label={label} />
          ))}
          {named(sheet)
            .filter((other) => other !== cylinder)
            .map((other) => (
              <Heard
                key={other}
                sheet={sheet}
                list={`${place}/plug_holes`}
                word={other}
                label={`plug hole of cylinder ${other}`}
              />
            ))}
        </details>
      )}
      <GroupFaults sheet={sheet} places={[place, `${place}/cylinder`]} />
    </div>
  );
}

/** One of the places where it hisses, to be ticked. */
function Heard({ sheet, list, word, label }: { sheet: Sheet; list: string; word: string; label: string }) {
  const words = (at(sheet.document, list) ?? []) as string[];
  const rest = words.filter((one) => one !== word);
  const change = (isHeard: boolean) => {
    const next = isHeard ? [...rest, word] : rest;
    sheet.write(list, next.length > 0 ? next : undefined);
  };
  return (
    <label class="check">
      <input
        type="checkbox"
        checked={words.includes(word)}
        onChange={(event) => change(event.currentTarget.checked)}
      />
      {label}
    </label>
  );
}

export function LeakFound({ report }: { report: AnyReport | null }) {
  const found = report?.condition?.leak;
  if (!found) return null;
  return (
    <section class="answer" aria-label="Leak-down: what was found">
      <Texts texts={[found.turning_text, found.provisional]} />
      <p>
        <strong>{sentence(found.verdict_text)}</strong>
      </p>
      <Advice advice={found.advice} />
      <ul class="plain">
        {found.cylinders.map(({ name, text, judged }) => (
          <li key={name}>
            {judged && (
              <span class={`sign ${judged.verdict}`} aria-hidden="true">
                {VERDICTS[judged.verdict].sign}
              </span>
            )}{" "}
            <strong>{sentence(name).replace(/\.$/, "")}</strong>: {sentence(text)}
          </li>
        ))}
      </ul>
      {found.not_read.length > 0 && <p>Not read: {found.not_read.join(", ")}.</p>}
    </section>
  );
}
