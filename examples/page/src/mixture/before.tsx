// What comes before the mixture: the valves and the timing.

import { at } from "../draft";
import { Line, Pick } from "../field";
import type { CardProps } from "../steps/view";

const STANDS = [
  ["", "not said"],
  ["settled", "settled, not moved since"],
  ["not_settled", "not settled"],
] as const;

export function BeforeCard({ sheet, report, withValves, withIgnition }: CardProps) {
  const steps = report?.mixture?.steps ?? [];
  const said = (name: string) => steps.find(({ step }) => step === name)?.text;
  const byIgnition = withIgnition && at(sheet.document, "/ignition/timing") !== undefined;
  return (
    <>
      {withValves ? (
        <p>
          Valve clearances: {said("valves")}. <a href="#job">Go to the valves</a>
        </p>
      ) : (
        <Pick sheet={sheet} at="/mixture/valves" label="Valve clearances" choices={STANDS} />
      )}
      {byIgnition ? (
        <p>
          Timing: {said("timing")}. <a href="#ignition">Go to the ignition</a>
        </p>
      ) : (
        <Pick sheet={sheet} at="/mixture/timing" label="Timing" choices={STANDS} />
      )}
      <Line
        sheet={sheet}
        at="/mixture/fuel"
        label="Fuel"
        kind="text"
        placeholder="E5"
        hint="E0 to E100 by its ethanol, LPG, or a formula as C8H18."
      />
    </>
  );
}
