// Cranking compression: what each cylinder showed, what it should show, each printed rule, and what lowers it.

import { at } from "../draft";
import { GroupFaults, Line, type Sheet } from "../field";
import { Fields, Fold, Group } from "../fields";
import { asTheyStand, YES_OR_NO } from "../ignition/lists";
import { Advice, Measured, Texts } from "../ignition/told";
import type { AnyReport, CompressionReport } from "../kernel";
import { keyed } from "../keyed";
import { Lines } from "../lines";
import type { CardProps } from "../steps/view";
import { sentence } from "../words";
import { PRESSURE_UNITS, pressureOf } from "./units";

const PLACE = "/condition/compression";
const READ = `${PLACE}/readings`;

export function CompressionCard({ sheet, report }: CardProps) {
  const unit = pressureOf(at(sheet.document, `${PLACE}/unit`));
  return (
    <>
      <CompressionFound report={report} />
      <Fields
        sheet={sheet}
        at={PLACE}
        of={[["unit", "Gauge is marked in", [["", "choose …"], ...PRESSURE_UNITS]]]}
      />
      <Group
        title="What the gauge showed"
        hint="All plugs out, throttle open. With oil: a little on the piston, read again."
      >
        {asTheyStand(sheet).map((cylinder) => (
          <Cylinder key={cylinder} sheet={sheet} cylinder={cylinder} unit={unit} />
        ))}
        <GroupFaults sheet={sheet} places={[PLACE, READ]} />
        <Fields sheet={sheet} at={PLACE} of={[["oil", "Oil in each", "ml"]]} />
      </Group>
      <Cranked sheet={sheet} />
      <Group
        title="What the book prints"
        sheet={sheet}
        of={[
          <Rule sheet={sheet} rule="percent_of_highest" label="Lowest at least, in % of the highest" />,
          <Rule sheet={sheet} rule="most_between" label="Apart by at most" unit={unit} />,
          <Rule sheet={sheet} rule="least" label="Each at least, at sea level" unit={unit} />,
        ]}
      />
      <Fold
        title="± of the gauge; exponent"
        sheet={sheet}
        at={PLACE}
        of={[
          ["repeat", "From reading to reading", unit],
          ["gauge_uncertainty", "Of the gauge itself", unit],
          ["exponent/from", "Exponent of compression, least", "number"],
          ["exponent/to", "Exponent of compression, most", "number"],
        ]}
        faults={[`${PLACE}/exponent`]}
      />
    </>
  );
}

function Cylinder({ sheet: whole, cylinder, unit }: { sheet: Sheet; cylinder: string; unit: string }) {
  const { sheet, place } = keyed(whole, READ, { cylinder });
  const isRead = at(sheet.document, place) !== undefined;
  return (
    <Fields
      look="part"
      sheet={sheet}
      at={place}
      of={[
        ["dry", `Cylinder ${cylinder}`, unit],
        isRead && ["wet", `Cylinder ${cylinder} with oil`, unit],
        isRead && ["build_up", `Cylinder ${cylinder}: the gauge rose`, ROSE],
        <GroupFaults sheet={sheet} places={[place, `${place}/cylinder`]} />,
      ]}
    />
  );
}

const ROSE = {
  "": "not said",
  even: "high at the first stroke, and evenly on",
  low_then_builds: "low at first, then with each stroke",
  stays_low: "low at first, and stayed low",
};

const Cranked = ({ sheet }: { sheet: Sheet }) => (
  <Group
    title="How it was cranked"
    sheet={sheet}
    at={`${PLACE}/cranked`}
    of={[
      ["warm", "Engine was warm", YES_OR_NO],
      ["throttle_open", "Throttle and choke were open", YES_OR_NO],
      ["all_plugs_out", "All plugs were out", YES_OR_NO],
      ["battery_good", "Cranked the last as fast as the first", YES_OR_NO],
      ["strokes", "Strokes of each cylinder", "number"],
    ]}
  />
);

interface RuleProps {
  sheet: Sheet;
  rule: "percent_of_highest" | "most_between" | "least";
  label: string;
  unit?: string;
}

/** One kind of printed rule; a document has them in a list, each with the one field that it is. */
function Rule({ sheet, rule, label, unit }: RuleProps) {
  const list = `${PLACE}/rules`;
  const rules = (at(sheet.document, list) ?? []) as Record<string, unknown>[];
  const found = rules.findIndex((one) => rule in one);
  const i = found < 0 ? rules.length : found;
  const own: Sheet = {
    ...sheet,
    write: (_, value) => {
      const next = rules.filter((_, other) => other !== i);
      if (value !== undefined) next.splice(i, 0, { [rule]: value });
      sheet.write(list, next.length > 0 ? next : undefined);
    },
  };
  const kind = unit ? { unit } : { kind: "number" as const };
  return <Line sheet={own} at={`${list}/${i}/${rule}`} label={label} {...kind} />;
}

export function CompressionFound({ report }: { report: AnyReport | null }) {
  const found = report?.condition?.compression;
  if (!found) return null;
  return (
    <section class="answer" aria-label="Compression: what was found">
      <Texts texts={[found.provisional, ...found.fault_texts]} />
      <p>
        <strong>{sentence(found.verdict_text)}</strong>
      </p>
      <Advice advice={found.advice} />
      {found.next && found.next.text !== found.advice.text && <p>{sentence(`next: ${found.next.text}`)}</p>}
      <Columns found={found} />
      <ul class="plain">
        {found.cylinders.map(({ name, text, oil_text }) => (
          <li key={name}>
            <strong>{sentence(name).replace(/\.$/, "")}</strong>: {sentence(text)}{" "}
            {oil_text && sentence(`oil: ${oil_text}`)}
          </li>
        ))}
      </ul>
      {found.gaskets.length > 0 && <Lines look="plain" lines={found.gaskets} />}
      <p>{sentence(found.level_text)}</p>
      {found.rules.map(({ judged }) => (
        <Measured key={judged.limits} of="Printed rule" judged={judged} />
      ))}
      {found.not_read.length > 0 && <p>Not read: {found.not_read.join(", ")}.</p>}
    </section>
  );
}

const WIDTH = 320;
const LEFT = 30;
const ROW = 26;

/** A bar for each cylinder, with a mark where the others say that it should be. The numbers stand below. */
function Columns({ found: { cylinders } }: { found: CompressionReport }) {
  const all = cylinders.flatMap(({ dry, wet, expected }) => [dry.kpa, wet?.kpa ?? 0, expected?.kpa ?? 0]);
  const most = Math.max(...all, 1);
  const x = (kpa: number) => (LEFT + (kpa / most) * (WIDTH - LEFT - 8)).toFixed(1);
  return (
    <figure>
      <svg class="picture" viewBox={`0 0 ${WIDTH} ${cylinders.length * ROW}`} aria-hidden="true">
        {cylinders.map(({ name, dry, wet, expected }, i) => (
          <g key={name}>
            <text x="0" y={i * ROW + 18}>
              {name.replace(/^\w+ /, "")}
            </text>
            <path class="zone band" d={`M${LEFT} ${i * ROW + 6}H${x(dry.kpa)}v14H${LEFT}z`} />
            {wet && <path class="edge" d={`M${x(dry.kpa)} ${i * ROW + 13}H${x(wet.kpa)}m0 -4v8`} />}
            {expected && <path class="aim" d={`M${x(expected.kpa)} ${i * ROW + 5}l5 -5h-10z`} />}
          </g>
        ))}
      </svg>
      <figcaption class="hint">
        Bar: without oil. Line at its end: with oil. Triangle: by the others.
      </figcaption>
    </figure>
  );
}
