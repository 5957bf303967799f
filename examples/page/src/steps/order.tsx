// What stops the work, and where each step stands.

import type { ConditionReport, IgnitionReport, MixtureReport } from "../kernel";
import { Lines } from "../lines";
import { sentence } from "../words";

/** What every step after the valves reports. */
export type StepFound = Pick<
  ConditionReport | IgnitionReport | MixtureReport,
  "steps" | "stop_work" | "next"
>;

const STANDINGS = {
  settled: ["in_band", "Settled"],
  not_settled: ["above", "Not settled"],
  not_known: ["cannot_say", "Not known"],
} as const;

/** What stops the work; `said` is said already, as a danger. */
export function StopWork({ found, said = [] }: { found: StepFound; said?: readonly string[] }) {
  const stops = found.stop_work.filter(({ text }) => !said.includes(text));
  if (stops.length === 0) return null;
  return (
    <section class="problems" aria-label="Stop work">
      <h2>Settle this before anything is set</h2>
      <Lines look="plain" lines={stops} />
    </section>
  );
}

function Sign({ standing }: { standing: keyof typeof STANDINGS }) {
  const [look, word] = STANDINGS[standing];
  return <span class={`sign ${look}`}>{word}</span>;
}

/** At the foot of the screen while something is typed: where its step stands; a tap shows the answer in full. */
export function Foretold({
  step: { standing, text },
  show,
}: {
  step: StepFound["steps"][number];
  show: () => void;
}) {
  return (
    <div class="peek">
      <button type="button" onClick={show}>
        <span class="sr">Show the answer: </span>
        <Sign standing={standing} />
        <span class="words">{sentence(text)}</span>
      </button>
    </div>
  );
}

export function Steps({ found }: { found: StepFound }) {
  return (
    <ol>
      {found.steps.map(({ step, name, standing, text }) => (
        <li key={step}>
          <Sign standing={standing} /> {sentence(`${name}: ${text}`)}
        </li>
      ))}
    </ol>
  );
}
