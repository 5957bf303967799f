// What stops the work, and where each step stands.

import type { IgnitionReport, MixtureReport } from "../kernel";
import { Lines } from "../lines";
import { sentence } from "../words";

/** What every step after the valves reports. */
export type StepFound = Pick<IgnitionReport | MixtureReport, "steps" | "stop_work">;

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

export function Steps({ found }: { found: StepFound }) {
  return (
    <ol>
      {found.steps.map(({ step, name, standing, text }) => {
        const [look, word] = STANDINGS[standing];
        return (
          <li key={step}>
            <span class={`sign ${look}`}>{word}</span> {sentence(`${name}: ${text}`)}
          </li>
        );
      })}
    </ol>
  );
}
