// The service on paper: what is next, and which steps are in which state.

import type { Document } from "../kernel";
import { serviceOf } from "../steps/ask";
import { STATES } from "../steps/next";
import { sentence } from "../words";

export function paperOf(document: Document) {
  const service = serviceOf(document);
  if (!service) return undefined;
  const { next, steps } = service;
  const states = Object.entries(STATES).flatMap(([state, [, word]]) => {
    const names = steps.filter((step) => step.state === state).map(({ name }) => name);
    return names.length > 0 ? [`${word.toLowerCase()}: ${names.join(", ")}`] : [];
  });
  return {
    report: { cautions: [], assumptions: [] },
    stop: (
      <section>
        <h3>Whole service</h3>
        {next && (
          <p>
            <strong>Next: {next.name}.</strong> {sentence(next.text)}
          </p>
        )}
        <p>{sentence(states.join("; "))}</p>
      </section>
    ),
    shown: null,
  };
}
