// The vacuum gauge: what was seen at it, and the causes that fit.

import { at } from "../draft";
import { GroupFaults } from "../field";
import { Group } from "../fields";
import { Advice } from "../ignition/told";
import type { AnyReport } from "../kernel";
import type { CardProps } from "../steps/view";
import { portion, sentence } from "../words";
import { VACUUM_UNITS, vacuumOf } from "./units";

const PLACE = "/mixture/gauge";

export function GaugeCard({ sheet, report }: CardProps) {
  const unit = vacuumOf(at(sheet.document, `${PLACE}/unit`));
  const moves = at(sheet.document, `${PLACE}/movement`);
  return (
    <>
      <GaugeFound report={report} />
      <p class="hint">Warm engine at idle, gauge at the manifold. Leave out what was not looked at.</p>
      <Group
        title="At idle"
        sheet={sheet}
        at={PLACE}
        of={[
          ["unit", "Gauge is marked in", [["", "choose …"], ...VACUUM_UNITS]],
          ["level", "It shows", unit],
          [
            "movement",
            "The needle",
            {
              "": "not said",
              steady: "stands",
              even_ripple: "trembles evenly",
              small_flick: "flicks back a little, in step with the engine",
              regular_drop: "drops clearly, in step with the engine",
              now_and_then: "drops now and then",
              slow_drift: "floats slowly up and down",
              wide_swing: "swings widely and fast",
            },
          ],
          moves != null && moves !== "steady" && ["drop", "It moves by", unit],
        ]}
      />
      <Group
        title="Faster, and a quick blip of the throttle"
        sheet={sheet}
        at={PLACE}
        of={[
          [
            "with_speed",
            "Run faster, the needle",
            {
              "": "not said",
              same: "stays as it was",
              steadies: "steadies",
              grows: "moves more",
              smaller_faster: "moves less, and faster",
              falls: "comes up, then falls slowly",
            },
          ],
          ["blip/opened", "Throttle opened: falls to", unit],
          ["blip/shut", "Shut again: rises to", unit],
        ]}
        faults={[`${PLACE}/blip`]}
      />
      <Group
        title="The engine, and what else was found"
        sheet={sheet}
        at={PLACE}
        of={[
          ["cylinders", "Cylinders on this manifold", "number"],
          ["high_overlap", "Camshaft with much overlap", { "": "not said", false: "no", true: "yes" }],
          [
            "compression",
            "Compression",
            {
              "": "not measured",
              even: "in limits and even",
              one_low: "one low, or several that are no neighbours",
              neighbours_low: "two neighbours low",
              all_low: "all low",
            },
          ],
          [
            "timing",
            "Timing was found",
            { "": "as its step says", right: "in its limits", late: "too late", early: "too early" },
          ],
          [
            "lash",
            "Valve clearances were",
            {
              "": "as their step says",
              in_limits: "in their limits",
              too_small: "one or more too small",
              too_large: "one or more too large",
            },
          ],
        ]}
      />
      <GroupFaults sheet={sheet} places={[PLACE]} />
    </>
  );
}

const WIDTH = 320;

export function GaugeFound({ report }: { report: AnyReport | null }) {
  const found = report?.mixture?.gauge;
  if (!found) return null;
  const isSeen = found.verdict !== "nothing_seen";
  return (
    <section class="answer" aria-label="Vacuum gauge: what was found">
      <p>
        <strong>{sentence(found.verdict_text)}</strong>
      </p>
      <Advice advice={found.advice} />
      {isSeen && (
        <ul class="plain">
          {found.causes.map(({ cause, probability, text }) => (
            <li key={cause}>
              {portion(probability)}: {sentence(text)}
              <svg class="picture" viewBox={`0 0 ${WIDTH} 10`} aria-hidden="true">
                <path class="zone band" d={`M0 1h${WIDTH}v8H0z`} />
                <path class="shape" d={`M0 1h${(probability * WIDTH).toFixed(1)}v8H0z`} />
              </svg>
            </li>
          ))}
        </ul>
      )}
      {found.level_text && <p>{sentence(found.level_text)}</p>}
      {found.next && found.advice.action !== "measure" && <p>Would tell more: {sentence(found.next.text)}</p>}
    </section>
  );
}
