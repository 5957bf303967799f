// Idle: speed against the place of the mixture screw, the crown of it, and which screw is turned next.

import { at } from "../draft";
import { GroupFaults, Line, Pick, type Sheet } from "../field";
import { Out } from "../ignition/lists";
import { Advice, Measured } from "../ignition/told";
import type { AnyReport } from "../kernel";
import type { CardProps } from "../steps/view";
import { Lines } from "../lines";
import { sentence } from "../words";
import { CrownCurve } from "./crown";

const PLACE = "/mixture/idle";
const READ = `${PLACE}/readings`;

export function IdleCard({ sheet, report }: CardProps) {
  const rows = (at(sheet.document, READ) ?? []) as unknown[];
  return (
    <>
      <IdleFound report={report} />
      <fieldset class="group">
        <legend>Where it stands now</legend>
        <div class="fields narrow">
          <Line sheet={sheet} at={`${PLACE}/now/out`} label="Mixture screw out" unit="turns" />
          <Line sheet={sheet} at={`${PLACE}/now/speed`} label="Engine runs at" unit="rpm" />
        </div>
      </fieldset>
      <fieldset class="group">
        <legend>Speed at places of the mixture screw</legend>
        <p class="hint">Throttle stop untouched; out from lightly seated, never forced home.</p>
        {rows.map((_, i) => (
          <div class="fields narrow part" key={i}>
            <Line sheet={sheet} at={`${READ}/${i}/out`} label={`Reading ${i + 1}: out`} unit="turns" />
            <Line sheet={sheet} at={`${READ}/${i}/speed`} label="Speed" unit="rpm" />
            <Out sheet={sheet} list={READ} rows={rows} i={i} name={`reading ${i + 1}`} />
          </div>
        ))}
        <GroupFaults sheet={sheet} places={[READ, ...rows.map((_, i) => `${READ}/${i}`)]} />
        <button type="button" onClick={() => sheet.write(READ, [...rows, { out: "", speed: "" }])}>
          Add a reading
        </button>
        <div class="fields narrow">
          <Line sheet={sheet} at={`${PLACE}/uncertainty`} label="± of each speed" unit="rpm" />
        </div>
      </fieldset>
      <fieldset class="group">
        <legend>The screw, and what the book wants</legend>
        <div class="fields narrow">
          <Pick
            sheet={sheet}
            at={`${PLACE}/screw`}
            label="The mixture screw lets in"
            choices={[
              ["", "choose …"],
              ["fuel", "fuel or mixture: out is richer"],
              ["air", "air: out is leaner"],
            ]}
          />
          <Line sheet={sheet} at={`${PLACE}/wanted/from`} label="Idle speed, min" unit="rpm" />
          <Line sheet={sheet} at={`${PLACE}/wanted/to`} label="Idle speed, max" unit="rpm" />
        </div>
        <Wanted sheet={sheet} />
        <Rise sheet={sheet} />
        <GroupFaults sheet={sheet} places={[PLACE, `${PLACE}/wanted`, `${PLACE}/beside`]} />
      </fieldset>
    </>
  );
}

/** How far the speed rises on leaning: as it was tried, or by the curve from where the screw stands. */
function Rise({ sheet }: { sheet: Sheet }) {
  const rise = at(sheet.document, `${PLACE}/rise`);
  const isRead = at(sheet.document, `${PLACE}/rise/reads`) !== undefined;
  const own: Sheet = {
    ...sheet,
    document: { by: isRead ? "read" : rise ? "curve" : "" },
    problems: [],
    form: PLACE,
    write: (_, by) => sheet.write(`${PLACE}/rise`, by === "curve" ? {} : undefined),
  };
  return (
    <div class="fields narrow">
      <Line
        sheet={sheet}
        at={`${PLACE}/rise/reads`}
        label="Speed rises, leaned out from here, by"
        unit="rpm"
        hint="If it was tried: published rules judge it, and do not agree."
      />
      <Pick
        sheet={own}
        at="/by"
        label="Judge the rise"
        choices={[
          ["", "no"],
          ["curve", "as the curve has it"],
          ...(isRead ? [["read", "as it was tried"] as const] : []),
        ]}
      />
      <GroupFaults sheet={sheet} places={[`${PLACE}/rise`]} />
    </div>
  );
}

/** Where the book wants the screw: where the engine runs fastest, or so far beside it. */
function Wanted({ sheet }: { sheet: Sheet }) {
  const isBeside = at(sheet.document, `${PLACE}/beside`) !== undefined;
  const side: Sheet = {
    ...sheet,
    write: (pointer, value) =>
      value ? sheet.write(pointer, value) : sheet.write(`${PLACE}/beside`, undefined),
  };
  return (
    <div class="fields narrow">
      <Pick
        sheet={side}
        at={`${PLACE}/beside/side`}
        label="It wants the screw"
        choices={[
          ["", "where it runs fastest"],
          ["lean", "leaner, by a fall in speed"],
          ["rich", "richer, by a fall in speed"],
        ]}
      />
      {isBeside && <Line sheet={sheet} at={`${PLACE}/beside/drop`} label="Fall in speed" unit="rpm" />}
    </div>
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
