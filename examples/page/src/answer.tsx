// What a reading says and what to do about it.

import { Picture } from "./picture";
import type { Judged, ValveReport } from "./kernel";
import { gap, type Shown } from "./gaps";
import { chance, sentence, VERDICTS } from "./words";

/** The verdict as sign and word. */
export function Sign({ verdict }: { verdict: Judged["verdict"] }) {
  const { sign, word } = VERDICTS[verdict];
  return (
    <span class={`sign ${verdict}`}>
      <span aria-hidden="true">{sign}</span> {word}
    </span>
  );
}

interface Props {
  valve: ValveReport;
  shown: Shown;
}

/** All judgements of one valve, one for each book that may apply. */
export function AnswerCard({ valve, shown }: Props) {
  if (valve.judged.length === 0) {
    return <p class="hint">No book applies to this engine number, so nothing can be judged.</p>;
  }
  return (
    <>
      {valve.judged.map((judged) => (
        <Judgement key={judged.specification} judged={judged} valve={valve} shown={shown} />
      ))}
    </>
  );
}

function Judgement({ judged, valve, shown }: { judged: Judged; valve: ValveReport; shown: Shown }) {
  const { probabilities: p, advice } = judged;
  return (
    <article class={`answer ${judged.verdict}`} aria-label={`By ${judged.specification}`}>
      <p class="verdict">
        <Sign verdict={judged.verdict} />
        <span class="against">
          against {judged.limits} <small>({judged.specification})</small>
        </span>
      </p>
      <p class="do">{sentence(advice.text)}</p>
      <Picture judged={judged} title={valve.name} shown={shown} />
      <dl class="chances">
        <div class="tight">
          <dt>Tight</dt>
          <dd>{chance(p.tight)}</dd>
        </div>
        <div class="in_band">
          <dt>In band</dt>
          <dd>{chance(p.in_band)}</dd>
        </div>
        <div class="loose">
          <dt>Loose</dt>
          <dd>{chance(p.loose)}</dd>
        </div>
      </dl>
      <dl class="facts">
        <dt>Gap as felt</dt>
        <dd>{gap(valve.felt_low, valve.felt_high, shown)}</dd>
        <dt>{judged.warmth ? "Gap corrected for warmth" : "Gap, not corrected for warmth"}</dt>
        <dd>{gap(judged.low, judged.high, shown)}</dd>
        {advice.feel_now && (
          <>
            <dt>After setting, now feels</dt>
            <dd>
              {gap(advice.feel_now, advice.feel_now, shown)}
              {advice.stack && <>, try {advice.stack}</>}
            </dd>
          </>
        )}
      </dl>
    </article>
  );
}
