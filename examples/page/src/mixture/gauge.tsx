// The vacuum gauge: what was seen at it, and the causes that fit.

import { at } from "../draft";
import { GroupFaults, Line, Pick } from "../field";
import { truths } from "../ignition/lists";
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
      <fieldset class="group">
        <legend>At idle</legend>
        <div class="fields narrow">
          <Pick
            sheet={sheet}
            at={`${PLACE}/unit`}
            label="Gauge is marked in"
            choices={[["", "choose …"], ...VACUUM_UNITS]}
          />
          <Line sheet={sheet} at={`${PLACE}/level`} label="It shows" unit={unit} />
          <Pick
            sheet={sheet}
            at={`${PLACE}/movement`}
            label="The needle"
            choices={[
              ["", "not said"],
              ["steady", "stands"],
              ["even_ripple", "trembles evenly"],
              ["small_flick", "flicks back a little, in step with the engine"],
              ["regular_drop", "drops clearly, in step with the engine"],
              ["now_and_then", "drops now and then"],
              ["slow_drift", "floats slowly up and down"],
              ["wide_swing", "swings widely and fast"],
            ]}
          />
          {moves != null && moves !== "steady" && (
            <Line sheet={sheet} at={`${PLACE}/drop`} label="It moves by" unit={unit} />
          )}
        </div>
      </fieldset>
      <fieldset class="group">
        <legend>Faster, and a quick blip of the throttle</legend>
        <div class="fields narrow">
          <Pick
            sheet={sheet}
            at={`${PLACE}/with_speed`}
            label="Run faster, the needle"
            choices={[
              ["", "not said"],
              ["same", "stays as it was"],
              ["steadies", "steadies"],
              ["grows", "moves more"],
              ["smaller_faster", "moves less, and faster"],
              ["falls", "comes up, then falls slowly"],
            ]}
          />
          <Line sheet={sheet} at={`${PLACE}/blip/opened`} label="Throttle opened: falls to" unit={unit} />
          <Line sheet={sheet} at={`${PLACE}/blip/shut`} label="Shut again: rises to" unit={unit} />
        </div>
        <GroupFaults sheet={sheet} places={[`${PLACE}/blip`]} />
      </fieldset>
      <fieldset class="group">
        <legend>The engine, and what else was found</legend>
        <div class="fields narrow">
          <Line sheet={sheet} at={`${PLACE}/cylinders`} label="Cylinders on this manifold" kind="number" />
          <Pick
            sheet={truths(sheet)}
            at={`${PLACE}/high_overlap`}
            label="Camshaft with much overlap"
            choices={[
              ["", "not said"],
              ["false", "no"],
              ["true", "yes"],
            ]}
          />
          <Pick
            sheet={sheet}
            at={`${PLACE}/compression`}
            label="Compression"
            choices={[
              ["", "not measured"],
              ["even", "in limits and even"],
              ["one_low", "one low, or several that are no neighbours"],
              ["neighbours_low", "two neighbours low"],
              ["all_low", "all low"],
            ]}
          />
          <Pick
            sheet={sheet}
            at={`${PLACE}/timing`}
            label="Timing was found"
            choices={[
              ["", "as its step says"],
              ["right", "in its limits"],
              ["late", "too late"],
              ["early", "too early"],
            ]}
          />
          <Pick
            sheet={sheet}
            at={`${PLACE}/lash`}
            label="Valve clearances were"
            choices={[
              ["", "as their step says"],
              ["in_limits", "in their limits"],
              ["too_small", "one or more too small"],
              ["too_large", "one or more too large"],
            ]}
          />
        </div>
      </fieldset>
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
