// One ignition point, read by one tool and said by every other.

import { at } from "../draft";
import { GroupFaults, Line, Pick, type Sheet } from "../field";
import { one } from "../gaps";
import { BTDC, truths } from "../ignition/lists";
import { fixed } from "../ignition/told";
import { Lines } from "../lines";
import { point } from "./told";
import type { FormProps } from "./view";

const PLACE = "/point";

/** Ways to give a point: the field, its words, and what is begun with it. */
const GIVEN = {
  at: ["degrees at the crank", ""],
  at_distributor: ["degrees at the distributor", ""],
  at_rim: ["a mark on the rim", { along: "" }],
  at_dial: ["a dial gauge on the piston", { shows: "" }],
} as const;

type Given = keyof typeof GIVEN;

export function PointForm({ sheet, report, unit }: FormProps) {
  const part = (at(sheet.document, PLACE) ?? {}) as Record<string, unknown>;
  const given = (Object.keys(GIVEN) as Given[]).find((way) => way in part) ?? "at";
  const hasDial = part.piston !== undefined;
  const ways: Sheet = {
    ...sheet,
    document: { given },
    problems: [],
    form: PLACE,
    write: (_, way) => {
      const rest = Object.entries(part).filter(([name]) => !(name in GIVEN));
      sheet.write(PLACE, { ...Object.fromEntries(rest), [String(way)]: GIVEN[way as Given][1] });
    },
  };
  const dial: Sheet = {
    ...sheet,
    document: { dial: hasDial ? "yes" : "" },
    problems: [],
    form: PLACE,
    write: (_, value) => sheet.write(`${PLACE}/piston`, value ? { dial: {} } : undefined),
  };
  return (
    <>
      <PointAnswer report={report} unit={unit} />
      <div class="fields narrow">
        <Pick
          sheet={ways}
          at="/given"
          label="The point is given by"
          choices={Object.entries(GIVEN).map(([way, [words]]) => [way, words] as const)}
        />
        {given === "at" && <Line sheet={sheet} at={`${PLACE}/at`} label="Ignition point" unit={BTDC} />}
        {given === "at_distributor" && (
          <Line sheet={sheet} at={`${PLACE}/at_distributor`} label="Point at the distributor" unit={BTDC} />
        )}
        {given === "at_rim" && (
          <>
            <Line sheet={sheet} at={`${PLACE}/at_rim/along`} label="Along the rim from TDC" unit={unit} />
            <Pick
              sheet={sheet}
              at={`${PLACE}/at_rim/side`}
              label="The mark stands"
              choices={[
                ["", "choose …"],
                ["ahead", "ahead of the TDC mark: it passes the pointer first"],
                ["on", "on the TDC mark"],
                ["behind", "behind the TDC mark"],
              ]}
            />
          </>
        )}
        {given === "at_dial" && (
          <>
            <Line sheet={sheet} at={`${PLACE}/at_dial/shows`} label="Dial shows, nought at TDC" unit={unit} />
            <Pick
              sheet={sheet}
              at={`${PLACE}/at_dial/side`}
              label="The piston stands"
              choices={[
                ["", "choose …"],
                ["before", "before TDC"],
                ["after", "after TDC"],
              ]}
            />
          </>
        )}
        <Line
          sheet={sheet}
          at={`${PLACE}/crank_turns`}
          label="Turns of the crank for one of the distributor"
          kind="number"
        />
        <Line sheet={sheet} at={`${PLACE}/rim/diameter`} label="Rim with the mark, across" unit={unit} />
        <Pick
          sheet={truths(sheet)}
          at={`${PLACE}/rim/by_tape`}
          label="The mark on the rim"
          choices={[
            ["", "choose …"],
            ["false", "is the maker's"],
            ["true", "is laid off with a tape"],
          ]}
        />
        <Pick
          sheet={dial}
          at="/dial"
          label="Dial gauge through the plug hole"
          choices={[
            ["", "no"],
            ["yes", "yes"],
          ]}
        />
        {hasDial && (
          <>
            <Line
              sheet={sheet}
              at={`${PLACE}/piston/throw`}
              label="Crank throw, half the stroke"
              unit={unit}
            />
            <Line sheet={sheet} at={`${PLACE}/piston/rod`} label="Rod, eye to eye" unit={unit} />
            <Line sheet={sheet} at={`${PLACE}/piston/offset`} label="Pin offset" unit={unit} />
            <Line
              sheet={sheet}
              at={`${PLACE}/piston/dial/plug_hole`}
              label="Hole leans from the bore"
              unit="deg"
            />
          </>
        )}
      </div>
      <GroupFaults
        sheet={sheet}
        places={[
          PLACE,
          ...["at_rim", "at_dial", "rim", "piston", "piston/dial"].map((one) => `${PLACE}/${one}`),
        ]}
      />
    </>
  );
}

const SIDES = { ahead: ", ahead of the TDC mark", on: ", on the TDC mark", behind: ", behind the TDC mark" };

function PointAnswer({ report, unit }: Answered) {
  const found = report?.point;
  if (!found) return null;
  const rows = found.ways.map(({ shows, uncertainty_deg }) => {
    const said = (): [string, string] => {
      if ("wheel" in shows) return ["Degree wheel", point(shows.wheel)];
      if ("distributor" in shows) return ["Distributor", point(shows.distributor)];
      if ("rim" in shows) return ["Rim", one(shows.rim.along, unit) + SIDES[shows.rim.side]];
      const { shows: dial, travel } = shows.dial;
      return ["Dial gauge", `${one(dial, unit)}, piston ${one(travel, unit)} down`];
    };
    const [by, words] = said();
    return `${by}: ${words}; ± ${fixed(uncertainty_deg, 2)} deg at the crank`;
  });
  return (
    <section class="answer" aria-label="Ignition point: what was found">
      <p>
        <strong>{point(found.at)}, the surest way first.</strong>
      </p>
      <Lines lines={rows} />
    </section>
  );
}

type Answered = { [one in "report" | "unit"]: FormProps[one] };
