// Leak-down: the tester, what it showed of each cylinder and where it hissed, and how large each leak is.

import { at } from "../draft";
import { GroupFaults, type Sheet } from "../field";
import { Fields, Fold, Group, type Asked } from "../fields";
import { asTheyStand, YES_OR_NO } from "../ignition/lists";
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
      <Group
        title="The tester"
        hint="Its orifice, or what it shows of a hole of known size: without one no leak is told."
      >
        <Fields
          sheet={sheet}
          at={PLACE}
          of={[["unit", "Gauges are marked in", [["", "choose …"], ...PRESSURE_UNITS]]]}
        />
        <Tester
          sheet={sheet}
          place={TESTER}
          unit={unit}
          length={length}
          more={[[`${PLACE}/gauge_uncertainty`, "± of the gauge", unit]]}
        />
      </Group>
      <Group title="What stood in each cylinder">
        {asTheyStand(sheet).map((cylinder) => (
          <Cylinder key={cylinder} sheet={sheet} cylinder={cylinder} unit={unit} length={length} />
        ))}
        <GroupFaults sheet={sheet} places={[PLACE, READ]} />
        <Fields sheet={sheet} at={PLACE} of={[["warm", "Engine was warm, air in it", YES_OR_NO]]} />
      </Group>
      <Group
        title="What the book prints"
        sheet={sheet}
        at={RULE}
        of={[
          [
            "of_bore",
            "60 of 80 psi, orifice for the bore (AC 43.13-1B)",
            { "": "no, or not said", true: "yes" },
          ],
          ["least", "At least in the cylinder", unit],
          ["supply", "Of a supply of", unit],
          ["orifice", "Through an orifice of", length],
          [
            `${PLACE}/by`,
            "Held against",
            { "": "the area of the leak, by any tester", face: "what the tester shows: the rule's own" },
          ],
        ]}
        faults={[RULE]}
      />
    </>
  );
}

interface TesterProps {
  sheet: Sheet;
  place: string;
  unit: string;
  length: string;
  /** Whose reading it is of, where it is not that of the rest. */
  name?: string;
  more?: readonly Asked[];
}

/** What a tester supplies, and its orifice in one of three ways. */
function Tester({ sheet, place, unit, length, name = "", more = [] }: TesterProps) {
  return (
    <>
      <Fields
        sheet={sheet}
        at={place}
        of={[
          ["supply", `Supply${name}`, unit],
          ["orifice", `Orifice, across${name}`, length],
          [
            "orifice_of_bore",
            `Orifice is the one for this bore (AC 43.13-1B)${name}`,
            { "": "not said", true: "yes" },
          ],
        ]}
      />
      <Fold
        title={`By a hole of known size; ±${name}`}
        sheet={sheet}
        at={place}
        of={[
          ["master/hole", `Hole, across${name}`, length],
          ["master/shows", `Tester shows of it${name}`, unit],
          ["diameter_uncertainty", `± across${name}`, length],
          ["supply_uncertainty", `± of the supply${name}`, unit],
          ...more,
        ]}
      />
      <GroupFaults sheet={sheet} places={[place, `${place}/master`]} />
    </>
  );
}

type CylinderProps = Pick<TesterProps, "sheet" | "unit" | "length"> & { cylinder: string };

function Cylinder({ sheet: whole, cylinder, unit, length }: CylinderProps) {
  const { sheet, place } = keyed(whole, READ, { cylinder });
  const isRead = at(sheet.document, place) !== undefined;
  const others = asTheyStand(sheet).filter((other) => other !== cylinder);
  return (
    <div class="part">
      <Fields
        sheet={sheet}
        at={place}
        of={[
          ["shows", `Cylinder ${cylinder}`, unit],
          isRead && ["held", `Cylinder ${cylinder}: held at top dead centre of compression`, YES_OR_NO],
        ]}
      />
      {isRead && (
        <>
          <Fold title={`Cylinder ${cylinder}: where it hisses`}>
            {Object.entries(HISSES).map(([word, label]) => (
              <Heard key={word} sheet={sheet} list={`${place}/hisses`} word={word} label={label} />
            ))}
            {others.map((other) => (
              <Heard
                key={other}
                sheet={sheet}
                list={`${place}/plug_holes`}
                word={other}
                label={`plug hole of cylinder ${other}`}
              />
            ))}
          </Fold>
          <Fold title={`Cylinder ${cylinder}: another tester`}>
            <Tester
              sheet={sheet}
              place={`${place}/tester`}
              unit={unit}
              length={length}
              name={`, cylinder ${cylinder}`}
            />
          </Fold>
        </>
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
