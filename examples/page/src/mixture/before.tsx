// What comes before the mixture: the valves and the timing.

import { at } from "../draft";
import { Fields } from "../fields";
import { STANDS, ValvesStand } from "../steps/stands";
import type { CardProps } from "../steps/view";

export function BeforeCard({ sheet, report, withValves, withIgnition }: CardProps) {
  const steps = report?.mixture?.steps ?? [];
  const said = (name: string) => steps.find(({ step }) => step === name)?.text;
  const byIgnition = withIgnition && at(sheet.document, "/ignition/timing") !== undefined;
  return (
    <>
      <ValvesStand sheet={sheet} report={report} withValves={withValves} part="mixture" />
      {byIgnition && (
        <p>
          Timing: {said("timing")}. <a href="#ignition">Go to the ignition</a>
        </p>
      )}
      <Fields
        sheet={sheet}
        at="/mixture"
        of={[
          !byIgnition && ["timing", "Timing", STANDS],
          ["fuel", "Fuel", "text", "E0 to E100 by its ethanol, LPG, or a formula as C8H18.", "E5"],
        ]}
      />
    </>
  );
}
