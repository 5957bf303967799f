// What a reading says and what to do about it.

import { Assumed } from "./lines";
import { causesOf, firstSteps } from "./besides";
import { NONE, type Felt } from "./felt";
import { Picture } from "./picture";
import type { JudgedReport, Report, ValveReport } from "./kernel";
import { gap, type Shown } from "./gaps";
import { chance, portion, sentence, SIDES, VERDICTS } from "./words";

/** The verdict as sign and word, no stronger than `said`. */
export function Sign({ verdict, said }: { verdict: JudgedReport["verdict"]; said?: string }) {
  const { sign, word } = VERDICTS[verdict];
  return (
    <span class={`sign ${verdict}`}>
      <span aria-hidden="true">{sign}</span> {word}
      {said?.startsWith("probably") && ", probably"}
    </span>
  );
}

/** The judgements of a valve, one for each verdict: the books may agree. */
export const signsOf = (judged: readonly JudgedReport[]): JudgedReport[] =>
  judged.filter(({ verdict }, i) => judged.findIndex((other) => other.verdict === verdict) === i);

/** One sign for each book; one only when they agree. */
export function Signs({ judged }: { judged: readonly JudgedReport[] }) {
  return (
    <>
      {signsOf(judged).map(({ verdict, verdict_text }) => (
        <Sign key={verdict} verdict={verdict} said={verdict_text} />
      ))}
    </>
  );
}

interface PeekProps {
  /** The valve, for those who hear the page. */
  name: string;
  /** What was understood of the leaves. */
  echo: string;
  /** By each book. */
  judged: readonly JudgedReport[];
  /** What to say while there is no answer. */
  hint: string;
  /** Whether an invented engine is in force. */
  demo: boolean;
  /** The id of the answer in full. */
  answer: string;
  children?: preact.ComponentChildren;
}

/** At the foot of the screen while leaves are tapped: what was understood, the verdict, and the next step. */
export function Peek({ name, echo, judged, hint, demo, answer, children }: PeekProps) {
  const advice = new Set(judged.map(inShort));
  const words = advice.size > 1 ? "the books differ: see what each says" : ([...advice][0] ?? hint);
  const show = () => document.getElementById(answer)?.scrollIntoView({ block: "start" });
  return (
    <div class="peek">
      <button type="button" onClick={show}>
        <span class="sr">Show the answer for {name}: </span>
        <span class="echo">
          {demo && <Demo />}
          {echo || name}
        </span>
        <Signs judged={judged} />
        <span class="words">{words}</span>
      </button>
      {children}
    </div>
  );
}

/** The mark of an invented engine. */
export const Demo = () => <strong class="demo">DEMO</strong>;

/** What comes first, or which leaf to try; the amount only where nothing comes before it. */
const inShort = (judged: JudgedReport): string => {
  const [first] = firstSteps(judged);
  if (first) return `first: ${first}`;
  const { advice, next_leaf: next } = judged;
  return advice.action === "measure" && next ? next.text : advice.text;
};

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
    return <p class="hint">No book applies to this engine serial number, so nothing can be judged.</p>;
  }
  return (
    <>
      {valve.judged.map((judged) => (
        <Judgement key={judged.specification} judged={judged} valve={valve} shown={shown} />
      ))}
      <Assumed lines={assumptions} />
    </>
  );
}

/**
 * Nothing goes in: before anything is turned one makes sure that the valve is closed. A kernel that names the
 * first steps itself has said so already.
 */
export function NothingGoes({ valve, sure }: { valve: string; sure: () => void }) {
  return (
    <section class="problems first" role="alert" aria-label="Before anything is turned">
      <p>
        <strong>No leaf goes in {valve}. Turn nothing yet.</strong>
      </p>
      <ol>
        <li>
          Is the valve closed? Both rockers of this cylinder must be slack by hand. If not, turn the crank one
          whole turn on and try again.
        </li>
        <li>Closed and still no gap: the valve may not seat. Look for why before the engine runs again.</li>
      </ol>
      <button type="button" onClick={sure}>
        It is closed: show the answer
      </button>
    </section>
  );
}

/** Whether to ask that before the answer. */
export const asksIfClosed = (felt: Felt, judged: readonly JudgedReport[]): boolean =>
  felt.how === "between" && felt.goes === NONE && judged.every((one) => firstSteps(one).length === 0);

function List({ title, lines }: { title: string; lines: readonly string[] }) {
  if (lines.length === 0) return null;
  return (
    <>
      <p class="list-title">{title}</p>
      <ol>
        {lines.map((line) => (
          <li key={line}>{sentence(line)}</li>
        ))}
      </ol>
    </>
  );
}

function Judgement({ judged, valve, shown }: { judged: JudgedReport; valve: Valve; shown: Shown }) {
  const { probabilities: p, advice } = judged;
  const steps = firstSteps(judged);
  const reset = advice.action === "reset" ? advice : undefined;
  return (
    <article class={`answer ${judged.verdict}`} aria-label={`By ${judged.specification}`}>
      <p class="verdict">
        <Sign verdict={judged.verdict} said={judged.verdict_text} />
        <span class="against">
          {judged.verdict_text}; book {judged.limits} <small>({judged.specification})</small>
        </span>
      </p>
      <List title="First" lines={steps} />
      <p class="do">{sentence(steps.length > 0 && reset ? `Then: ${reset.amount}` : advice.text)}</p>
      <List title="Possible causes" lines={causesOf(judged)} />
      <dl class="facts">
        <div>
          <dt>Gap as felt</dt>
          <dd>{gap(valve.felt_low, valve.felt_high, shown)}</dd>
        </div>
        <div>
          <dt>{judged.warmth ? "Gap at book temperature" : "Gap, temperature not allowed for"}</dt>
          <dd>{gap(judged.low, judged.high, shown)}</dd>
        </div>
        {reset?.feel_now && (
          <div>
            <dt>Set so that it feels</dt>
            <dd>
              {gap(reset.feel_now, reset.feel_now, shown)}
              {reset.leaves && <>: {reset.leaves.text}</>}
            </dd>
          </div>
        )}
      </dl>
      <details class="small">
        <summary>How certain</summary>
        <Picture judged={judged} title={valve.name} shown={shown} />
        {judged.set_to && <p class="legend">▲ gap to set; filled: what the reading says of the gap</p>}
        <dl class="chances">
          <div class="below">
            <dt>Too tight</dt>
            <dd>{chance(p.below)}</dd>
          </div>
          <div class="in_band">
            <dt>In limits</dt>
            <dd>{chance(p.in_band)}</dd>
          </div>
          <div class="above">
            <dt>Too loose</dt>
            <dd>{chance(p.above)}</dd>
          </div>
        </dl>
        {judged.deciding && (
          <p>
            Not called in limits: {SIDES[judged.deciding.side]} {portion(judged.deciding.share)}, allowed{" "}
            {portion(judged.deciding.allowed)}.
          </p>
        )}
      </details>
    </article>
  );
}
