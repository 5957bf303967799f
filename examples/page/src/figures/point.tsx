// One ignition point, read by one tool and said by every other.

import { at } from "../draft";
import { GroupFaults } from "../field";
import { Choose, Fields, standIn, type Asked } from "../fields";
import { one } from "../gaps";
import { BTDC } from "../ignition/lists";
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
  const give = (way: unknown) => {
    const rest = Object.entries(part).filter(([name]) => !(name in GIVEN));
    sheet.write(PLACE, { ...Object.fromEntries(rest), [String(way)]: GIVEN[way as Given][1] });
  };
  const dial = (value: unknown) => sheet.write(`${PLACE}/piston`, value ? { dial: {} } : undefined);
  const fields: { [way in Given]: Asked[] } = {
    at: [["at", "Ignition point", BTDC]],
    at_distributor: [["at_distributor", "Point at the distributor", BTDC]],
    at_rim: [
      ["at_rim/along", "Along the rim from TDC", unit],
      [
        "at_rim/side",
        "The mark stands",
        {
          "": "choose …",
          ahead: "ahead of the TDC mark: it passes the pointer first",
          on: "on the TDC mark",
          behind: "behind the TDC mark",
        },
      ],
    ],
    at_dial: [
      ["at_dial/shows", "Dial shows, nought at TDC", unit],
      ["at_dial/side", "The piston stands", { "": "choose …", before: "before TDC", after: "after TDC" }],
    ],
  };
  return (
    <>
      <PointAnswer report={report} unit={unit} />
      <Fields
        sheet={sheet}
        at={PLACE}
        of={[
          <Choose
            sheet={standIn(sheet, PLACE, "given", given, give)}
            at="/given"
            label="The point is given by"
            choices={Object.entries(GIVEN).map(([way, [words]]) => [way, words] as const)}
          />,
          ...fields[given],
          ["crank_turns", "Turns of the crank for one of the distributor", "number"],
          ["rim/diameter", "Rim with the mark, across", unit],
          [
            "rim/by_tape",
            "The mark on the rim",
            { "": "choose …", false: "is the maker's", true: "is laid off with a tape" },
          ],
          <Choose
            sheet={standIn(sheet, PLACE, "dial", hasDial ? "yes" : "", dial)}
            at="/dial"
            label="Dial gauge through the plug hole"
            choices={{ "": "no", yes: "yes" }}
          />,
          hasDial && ["piston/throw", "Crank throw, half the stroke", unit],
          hasDial && ["piston/rod", "Rod, eye to eye", unit],
          hasDial && ["piston/offset", "Pin offset", unit],
          hasDial && ["piston/dial/plug_hole", "Hole leans from the bore", "deg"],
        ]}
      />
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
