// What a reading says and what to do about it.

import { Picture } from "./picture";
import type { JudgedReport, Report, ValveReport } from "./kernel";
import { gap, type Shown } from "./gaps";
import { chance, sentence, VERDICTS } from "./words";

/** The verdict as sign and word. */
export function Sign({ verdict }: { verdict: JudgedReport["verdict"] }) {
  const { sign, word } = VERDICTS[verdict];
  return (
    <span class={`sign ${verdict}`}>
      <span aria-hidden="true">{sign}</span> {word}
    </span>
  );
}

/** One sign for each book; one only when they agree. */
export function Signs({ judged }: { judged: readonly JudgedReport[] }) {
  return (
    <>
      {[...new Set(judged.map(({ verdict }) => verdict))].map((verdict) => (
        <Sign key={verdict} verdict={verdict} />
      ))}
    </>
  );
}

/** On a phone: the verdict at the foot of the screen while leaves are tapped, and the way to the rest. */
export function Peek({ judged, answer, children }: PeekProps) {
  const advice = new Set(judged.map((one) => one.advice.text));
  const show = () => document.getElementById(answer)?.scrollIntoView({ block: "start" });
  return (
    <div class="peek">
      <button type="button" onClick={show}>
        <Signs judged={judged} />
        <span>{advice.size === 1 ? [...advice] : "the books differ: see what each says"}</span>
      </button>
      {children}
    </div>
  );
}

interface PeekProps {
  /** By each book. */
  judged: readonly JudgedReport[];
  /** The id of the answer in full. */
  answer: string;
  children?: preact.ComponentChildren;
}

/** A valve that was read, of a whole job or alone. */
type Valve = Pick<ValveReport, "name" | "felt_low" | "felt_high" | "judged">;

interface Props {
  valve: Valve;
  shown: Shown;
  /** Shown with the answer where no report does. */
  assumptions?: Report["assumptions"] | undefined;
}

/** All judgements of one valve, one for each book that may apply. */
export function AnswerCard({ valve, shown, assumptions = [] }: Props) {
  if (valve.judged.length === 0) {
    return <p class="hint">No book applies to this engine number, so nothing can be judged.</p>;
  }
  return (
    <>
      {valve.judged.map((judged) => (
        <Judgement key={judged.specification} judged={judged} valve={valve} shown={shown} />
      ))}
      {assumptions.length > 0 && (
        <details class="small">
          <summary>What was assumed ({assumptions.length})</summary>
          <ul class="plain">
            {assumptions.map(({ code, text }) => (
              <li key={code + text}>{sentence(text)}</li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}

function Judgement({ judged, valve, shown }: { judged: JudgedReport; valve: Valve; shown: Shown }) {
  const { probabilities: p, advice } = judged;
  const reset = advice.action === "reset" ? advice : undefined;
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
      {judged.set_to && <p class="legend">▲ value to set; filled: what the reading says of the gap</p>}
      <dl class="chances">
        <div class="below">
          <dt>Tight</dt>
          <dd>{chance(p.below)}</dd>
        </div>
        <div class="in_band">
          <dt>In band</dt>
          <dd>{chance(p.in_band)}</dd>
        </div>
        <div class="above">
          <dt>Loose</dt>
          <dd>{chance(p.above)}</dd>
        </div>
      </dl>
      <dl class="facts">
        <div>
          <dt>Gap as felt</dt>
          <dd>{gap(valve.felt_low, valve.felt_high, shown)}</dd>
        </div>
        <div>
          <dt>{judged.warmth ? "Gap corrected for warmth" : "Gap, not corrected for warmth"}</dt>
          <dd>{gap(judged.low, judged.high, shown)}</dd>
        </div>
        {reset?.feel_now && (
          <div>
            <dt>After setting, now feels</dt>
            <dd>
              {gap(reset.feel_now, reset.feel_now, shown)}
              {reset.stack && <>, try {reset.stack}</>}
            </dd>
          </div>
        )}
      </dl>
    </article>
  );
}
