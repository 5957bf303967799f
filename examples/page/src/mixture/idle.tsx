// Idle: speed against the place of the mixture screw, the crown of it, and which screw is turned next.

import { asText, at } from "../draft";
import { GroupFaults, type Sheet } from "../field";
import { Choose, Fields, Group, Rows, standIn } from "../fields";
import { Advice, Measured } from "../ignition/told";
import type { AnyReport } from "../kernel";
import type { CardProps } from "../steps/view";
import { Lines } from "../lines";
import { sentence } from "../words";
import { CrownCurve } from "./crown";

const PLACE = "/mixture/idle";
const READ = `${PLACE}/readings`;

export function IdleCard({ sheet, report }: CardProps) {
  return (
    <>
      <IdleFound report={report} />
      <Group
        title="Where it stands now"
        sheet={sheet}
        at={`${PLACE}/now`}
        of={[
          ["out", "Mixture screw out", "turns"],
          ["speed", "Engine runs at", "rpm"],
        ]}
      />
      <Group
        title="Speed at places of the mixture screw"
        hint="Throttle stop untouched; out from lightly seated, never forced home."
      >
        <Rows
          sheet={sheet}
          list={READ}
          item={(number) => `reading ${number}`}
          of={(number) => [
            ["out", `Reading ${number}: out`, "turns"],
            ["speed", "Speed", "rpm"],
          ]}
          add={[["Add a reading", { out: "", speed: "" }]]}
        />
        <Fields sheet={sheet} at={PLACE} of={[["uncertainty", "± of each speed", "rpm"]]} />
      </Group>
      <Group title="The screw, and what the book wants">
        <Fields
          sheet={sheet}
          at={PLACE}
          of={[
            [
              "screw",
              "The mixture screw lets in",
              { "": "choose …", fuel: "fuel or mixture: out is richer", air: "air: out is leaner" },
            ],
            ["wanted/from", "Idle speed, min", "rpm"],
            ["wanted/to", "Idle speed, max", "rpm"],
          ]}
        />
        <Wanted sheet={sheet} />
        <Rise sheet={sheet} />
        <GroupFaults sheet={sheet} places={[PLACE, `${PLACE}/wanted`, `${PLACE}/beside`]} />
      </Group>
    </>
  );
}

/** How far the speed rises on leaning: as it was tried, or by the curve from where the screw stands. */
function Rise({ sheet }: { sheet: Sheet }) {
  const rise = at(sheet.document, `${PLACE}/rise`);
  const isRead = at(sheet.document, `${PLACE}/rise/reads`) !== undefined;
  const by = isRead ? "read" : rise ? "curve" : "";
  const judge = (by: unknown) => sheet.write(`${PLACE}/rise`, by === "curve" ? {} : undefined);
  return (
    <Fields
      sheet={sheet}
      at={`${PLACE}/rise`}
      of={[
        [
          "reads",
          "Speed rises, leaned out from here, by",
          "rpm",
          "If it was tried: published rules judge it, and do not agree.",
        ],
        <Choose
          sheet={standIn(sheet, PLACE, "by", by, judge)}
          at="/by"
          label="Judge the rise"
          choices={{ "": "no", curve: "as the curve has it", ...(isRead && { read: "as it was tried" }) }}
        />,
        <GroupFaults sheet={sheet} places={[`${PLACE}/rise`]} />,
      ]}
    />
  );
}

const HIGHEST = "highest_speed";

/** Where the book wants the screw: where the engine runs fastest, or so far beside it. */
function Wanted({ sheet }: { sheet: Sheet }) {
  const idle = (at(sheet.document, PLACE) ?? {}) as Record<string, unknown>;
  const side = asText(at(idle, "/beside/side"));
  const write = (wanted: unknown) => {
    const { beside, set_to: _, ...rest } = idle;
    const where =
      wanted === HIGHEST ? { set_to: HIGHEST } : { beside: { ...(beside as object), side: wanted } };
    sheet.write(PLACE, wanted ? { ...rest, ...where } : rest);
  };
  const faults = [`${PLACE}/set_to`, `${PLACE}/beside/side`];
  return (
    <Fields
      sheet={sheet}
      at={PLACE}
      of={[
        <Choose
          sheet={standIn(sheet, PLACE, "wants", side || asText(idle.set_to), write, faults)}
          at="/wants"
          label="It wants the screw"
          choices={{
            "": "not said",
            [HIGHEST]: "where it runs fastest",
            lean: "leaner, by a fall in speed",
            rich: "richer, by a fall in speed",
          }}
        />,
        side !== "" && ["beside/drop", "Fall in speed", "rpm"],
      ]}
    />
  );
}

export function IdleFound({ report }: { report: AnyReport | null }) {
  const found = report?.mixture?.idle;
  if (!found) return null;
  return (
    <section class="answer" aria-label="Idle: what was found">
      <Measured of="Idle speed" judged={found.speed} />
      <Advice advice={found.advice} />
      <CrownCurve found={found} />
      <p>{sentence(found.verdict_text)}</p>
      {found.rise && (
        <>
          <p>{sentence(found.rise.text)}</p>
          <Lines look="plain" lines={found.rise.by_rules} />
        </>
      )}
    </section>
  );
}
