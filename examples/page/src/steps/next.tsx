// What comes next in the whole service, and the way to the screen of a step.

import { useEffect, useState } from "preact/hooks";
import type { Document, ServiceReport } from "../kernel";
import { moveJob } from "../state";
import { sentence } from "../words";
import { bringFor, lacksFor } from "../whole";
import { serviceOf, withAll } from "./ask";

type Step = ServiceReport["steps"][number];

/** The screens of a service, by the view that each is. */
export const SCREENS = {
  job: "Valves",
  condition: "Condition",
  ignition: "Ignition",
  mixture: "Mixture",
  history: "History",
  causes: "Causes",
} as const;

export const STATES = {
  done: ["in_band", "Done"],
  provisional: ["cannot_say", "Provisional"],
  stale: ["above", "Read again"],
  open: ["above", "Open"],
  not_known: ["cannot_say", "Not known"],
  not_begun: ["cannot_say", "Not begun"],
} as const;

/** Which screen a step has: its own card there, or all of the screen. */
const VIEWS: Record<Step["step"], keyof typeof SCREENS> = {
  head: "condition",
  valves: "job",
  compression: "condition",
  leak: "condition",
  leads: "ignition",
  contacts: "ignition",
  timing: "ignition",
  advance: "ignition",
  evenness: "ignition",
  electrics: "ignition",
  magneto: "ignition",
  gauge: "mixture",
  float: "mixture",
  jets: "mixture",
  balance: "mixture",
  idle: "mixture",
  gas: "mixture",
};

/** The address of the screen of a step, at its card. */
export const toStep = (step: Step["step"]): string => `#${VIEWS[step]}/${step}`;

/** Goes to a step; the valves are read at their stops, after their cautions. */
function goTo(step: Step["step"]): void {
  if (step === "valves") moveJob({ stage: "turn" });
  location.hash = toStep(step);
}

/**
 * At the foot of the screen: the step that is next over the whole service. It brings what answers all steps, unless it
 * waits for somebody else to ask for that.
 */
export function ServiceNext({ document, waits = false }: { document: Document; waits?: boolean }) {
  const all = withAll(document);
  const [, setThere] = useState({});
  useEffect(() => {
    if (!waits)
      bringFor(all).then(
        () => setThere({}),
        () => undefined,
      );
  }, [waits, Object.keys(all).join()]);
  const next = lacksFor(all) ? undefined : serviceOf(document)?.next;
  if (!next) return null;
  return (
    <div class="peek">
      <button type="button" onClick={() => goTo(next.step)}>
        <strong>Next: {next.name}</strong>
        <span class="words">{sentence(next.text)}</span>
      </button>
    </div>
  );
}
