// What stops the work, and where each step stands.

import type { IgnitionReport } from "../kernel";
import { Lines } from "../lines";
import { sentence } from "../words";

const STANDINGS = {
  settled: ["in_band", "Settled"],
  not_settled: ["above", "Not settled"],
  not_known: ["cannot_say", "Not known"],
} as const;

export function StopWork({ found }: { found: IgnitionReport }) {
  // What is said as a danger already is not said again.
  const dangers = found.magneto?.cautions.map(({ text }) => text) ?? [];
  const stops = found.stop_work.filter(({ text }) => !dangers.includes(text));
  if (stops.length === 0) return null;
  return (
    <section class="problems" aria-label="Stop work">
      <h2>Settle this before anything is set</h2>
      <Lines look="plain" lines={stops} />
    </section>
  );
}

export function Steps({ found }: { found: IgnitionReport }) {
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
