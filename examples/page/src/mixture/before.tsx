// What comes before the mixture: the valves and the timing.

import { at } from "../draft";
import { Line, Pick } from "../field";
import { STANDS, ValvesStand } from "../steps/stands";
import type { CardProps } from "../steps/view";

export function BeforeCard({ sheet, report, withValves, withIgnition }: CardProps) {
  const steps = report?.mixture?.steps ?? [];
  const said = (name: string) => steps.find(({ step }) => step === name)?.text;
  const byIgnition = withIgnition && at(sheet.document, "/ignition/timing") !== undefined;
  return (
    <>
      <ValvesStand sheet={sheet} report={report} withValves={withValves} part="mixture" />
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
