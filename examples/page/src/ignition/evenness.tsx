// How evenly the cylinders fire: what was read of each, and the sparks on a dial.

import { asText, at } from "../draft";
import { GroupFaults, type Sheet } from "../field";
import { Choose, Fields, Group, standIn, type Asked } from "../fields";
import type { AnyReport } from "../kernel";
import { portion, sentence } from "../words";
import { FiringDial } from "./firing-dial";
import { BTDC, named } from "./lists";
import { Advice, Measured, Texts } from "./told";
import type { CardProps } from "../steps/view";

const PLACE = "/ignition/evenness";

/** Ways of reading, each with its unit and what a reading is called. */
const WAYS = {
  timing: ["a lamp, each cylinder at its own mark", BTDC, "reads"],
  dwell: ["a dwell meter, cylinder by cylinder", "deg", "is closed"],
  ring: ["flashes on the ring of a stand", "deg", "stands at"],
} as const;

type Way = keyof typeof WAYS;

export function EvennessCard({ sheet, report, unit }: CardProps) {
  const way = (Object.keys(WAYS) as Way[]).find((way) => at(sheet.document, `${PLACE}/${way}`));
  return (
    <>
      <EvennessFound report={report} rotor={asText(at(sheet.document, "/ignition/distributor/rotor"))} />
      <WayPick sheet={sheet} way={way} />
      {way && <Readings sheet={sheet} way={way} />}
      <Fields
        sheet={sheet}
        at={PLACE}
        of={[
          ["tolerance", "Book: off its place by at most", "deg"],
          ["cam/radius", "Cam, middle to follower", unit],
        ]}
      />
      <p class="hint">At the distributor. With the cam the run-out is told as a length.</p>
      <GroupFaults sheet={sheet} places={[PLACE, `${PLACE}/tolerance`]} />
    </>
  );
}

export function EvennessFound({ report, rotor }: { report: AnyReport | null; rotor: string }) {
  const found = report?.ignition?.evenness;
  if (!found) return null;
  return (
    <section class="answer" aria-label="Evenness: what was found">
      <p>
        <strong>{sentence(found.verdict_text)}</strong>
      </p>
      <Advice advice={found.advice} />
      <FiringDial found={found} rotor={rotor} />
      <Measured of="All together" judged={found.mean} />
      <Texts
        texts={[
          ...found.parts,
          ...found.explanations.map(({ probability, text }) => `${portion(probability)}: ${text}`),
          ...found.looks.map((look) => `would tell: ${look}`),
        ]}
      />
    </section>
  );
}

function WayPick({ sheet, way }: { sheet: Sheet; way: Way | undefined }) {
  const write = (chosen: unknown) => {
    const before = (at(sheet.document, PLACE) ?? {}) as Record<string, unknown>;
    const { timing, dwell, ring, ...rest } = before;
    const readings = named(sheet).map((cylinder) => ({ cylinder, reads: "" }));
    const next = chosen ? { ...rest, [asText(chosen)]: { readings } } : rest;
    sheet.write(PLACE, Object.keys(next).length > 0 ? next : undefined);
  };
  const choices = Object.entries(WAYS).map(([way, [words]]) => [way, words] as const);
  return (
    <Choose
      sheet={standIn(sheet, PLACE, "way", way ?? "", write)}
      at="/way"
      label="Read with"
      choices={[["", "nothing read"], ...choices]}
    />
  );
}

function Readings({ sheet, way }: { sheet: Sheet; way: Way }) {
  const [, unit, reads] = WAYS[way];
  const place = `${PLACE}/${way}`;
  const rows = (at(sheet.document, `${place}/readings`) ?? []) as { cylinder?: string }[];
  return (
    <Group
      title="One reading for each cylinder"
      sheet={sheet}
      at={place}
      of={[
        ...rows.map(
          ({ cylinder }, i): Asked => [`readings/${i}/reads`, `Cylinder ${cylinder} ${reads}`, unit],
        ),
        ["uncertainty", "± of each", "deg"],
        way === "timing" && ["book", "All should read", BTDC],
        way === "dwell" && [
          "shown",
          "The meter shows it under",
          {
            "": "choose …",
            before_its_spark: "the cylinder whose spark ends it",
            after_its_spark: "the one that fired before",
          },
        ],
      ]}
      faults={[place, `${place}/readings`, ...rows.map((_, i) => `${place}/readings/${i}`)]}
    />
  );
}
