// How a step before stands: as the job found it, or as it is said.

import { Pick } from "../field";
import type { StepPart } from "./ask";
import type { CardProps } from "./view";

/** What is said of a step that was not read in this job. */
export const STANDS = [
  ["", "not said"],
  ["settled", "settled, and nothing moved since"],
  ["not_settled", "not settled"],
] as const;

interface Props {
  sheet: CardProps["sheet"];
  report: CardProps["report"];
  withValves: boolean;
  /** The step that stands on the valves. */
  part: StepPart;
}

export function ValvesStand({ sheet, report, withValves, part }: Props) {
  if (!withValves)
    return <Pick sheet={sheet} at={`/${part}/valves`} label="Valve clearances" choices={STANDS} />;
  const valves = report?.[part]?.steps.find(({ step }) => step === "valves");
  return (
    <p>
      Valve clearances: {valves?.text}. <a href="#job">Go to the valves</a>
    </p>
  );
}
