// Exhaust gas: what a tester showed, what does not fit together, lambda with its doubt, and what to turn.

import { asText, at } from "../draft";
import { Group, type Asked } from "../fields";
import { YES_OR_NO } from "../ignition/lists";
import { Advice, Measured } from "../ignition/told";
import type { AnyReport, GasReport } from "../kernel";
import { Lines } from "../lines";
import type { CardProps } from "../steps/view";
import { sentence } from "../words";

const PLACE = "/mixture/gas";

/** The gases that are read in per cent. */
const GASES = { co: "CO", co2: "CO₂", o2: "O₂" } as const;

export function GasCard({ sheet, report }: CardProps) {
  const isRead = asText(at(sheet.document, `${PLACE}/hc/read`)) !== "";
  return (
    <>
      <GasFound report={report} />
      <Group
        title="What the tester shows"
        sheet={sheet}
        at={PLACE}
        of={[
          ...Object.entries(GASES).map(([gas, name]): Asked => [gas, name, "%"]),
          ["hc/read", "HC", "ppm"],
          isRead && ["hc/shown_as", "HC is shown as", SHOWN_AS],
          ["no", "NO", "ppm"],
        ]}
        faults={[PLACE, `${PLACE}/hc`]}
      />
      <Group
        title="How it was read"
        sheet={sheet}
        at={PLACE}
        of={[
          ["read_at", "The engine ran", { "": "not said", idle: "at idle", raised_speed: "faster" }],
          ["warm", "It was warm", YES_OR_NO],
          ["probe_deep", "Probe as deep as the tester asks", YES_OR_NO],
          ["air_injection_off", "No air is put into the exhaust: shut off, or none there", YES_OR_NO],
          [
            "class",
            "Class on its plate",
            [
              ["", "not said"],
              ["00", "00"],
              ["0", "0"],
              ["I", "I"],
            ],
          ],
          [
            "screw",
            "The mixture screw lets in",
            { "": "as said of the idle", fuel: "fuel or mixture: out is richer", air: "air: out is leaner" },
          ],
        ]}
      />
      <Group
        title="What the book prints"
        sheet={sheet}
        at={`${PLACE}/limits`}
        of={[
          ["co/from", "CO, min", "%"],
          ["co/to", "CO, max", "%"],
          ["lambda/from", "Lambda, min", "lambda"],
          ["lambda/to", "Lambda, max", "lambda"],
          ["hc/to", "HC, max", "ppm"],
        ]}
        faults={["co", "lambda", "hc"].map((gas) => `${PLACE}/limits/${gas}`)}
      />
    </>
  );
}

/** What hydrocarbons are shown as. */
const SHOWN_AS = {
  "": "not said",
  hexane: "hexane",
  hexane_of_petrol: "hexane, and counted twice for petrol",
  propane: "propane",
  carbon: "atoms of carbon",
};

/** What does not fit comes before every number: with it there, the numbers may say nothing. */
export function GasFound({ report }: { report: AnyReport | null }) {
  const found = report?.mixture?.gas;
  if (!found) return null;
  const { judged } = found;
  // Where to look, the advice then says for all of them together.
  const isTold = found.advice.action === "find_cause";
  return (
    <section class="answer" aria-label="Exhaust gas: what was found">
      {found.spoilt && <p class="problems">{sentence(found.spoilt)}</p>}
      {found.contradictions.length > 0 && (
        <div class="problems">
          <h3>This does not fit together</h3>
          {found.contradictions.map(({ what, text, causes }) => (
            <div key={what}>
              <p>
                <strong>{sentence(text)}</strong>
              </p>
              <Lines
                look="plain"
                lines={causes.map(({ text, look }) => (isTold ? text : `${text}: ${look}`))}
              />
            </div>
          ))}
        </div>
      )}
      <p>
        <strong>{sentence(found.verdict_text)}</strong>
      </p>
      <Advice advice={found.advice} />
      {found.lambda && (
        <>
          {/* What is not to be taken for the engine's mixture is no picture of it. */}
          {found.contradictions.length === 0 && !found.spoilt && <LambdaLine lambda={found.lambda} />}
          <p>{sentence(found.lambda.text)}</p>
        </>
      )}
      <Measured of="Lambda" judged={judged.lambda} />
      <Measured of="CO" judged={judged.co} />
      <Measured of="HC" judged={judged.hc} />
    </section>
  );
}

const WIDTH = 320;
/** What is drawn of lambda; the kernel takes no gas for right outside of 0.6 to 2. */
const FROM = 0.7;
const TO = 1.3;

/** Lambda on a line: where it lies with 95 %, and its middle. Right is lean. */
function LambdaLine({ lambda }: { lambda: NonNullable<GasReport["lambda"]> }) {
  const { value, from, to } = lambda;
  const x = (ratio: number) =>
    8 + ((Math.min(Math.max(ratio, FROM), TO) - FROM) / (TO - FROM)) * (WIDTH - 16);
  const [left, right] = [x(from?.lambda ?? FROM), x(to?.lambda ?? TO)];
  return (
    <svg class="picture" viewBox={`0 0 ${WIDTH} 64`} aria-hidden="true">
      <path class="edge" d={`M8 40H${WIDTH - 8}`} />
      <path class="shape" d={`M${left} 26H${right}V38H${left}z`} />
      {[0.8, 0.9, 1, 1.1, 1.2].map((ratio) => (
        <g key={ratio}>
          <path class="edge" d={`M${x(ratio)} ${ratio === 1 ? 18 : 36}V46`} />
          <text x={x(ratio)} y="60" text-anchor="middle">
            {ratio}
          </text>
        </g>
      ))}
      {value && <path class="aim" d={`M${x(value.lambda)} 24l7 -12h-14z`} />}
      <text x="0" y="14">
        rich
      </text>
      <text x={WIDTH} y="14" text-anchor="end">
        lean
      </text>
    </svg>
  );
}
