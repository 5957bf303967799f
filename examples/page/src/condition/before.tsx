// What the readings are held against: valves, ratio, closing of the intake, the air around, the bore.

import { at } from "../draft";
import { GroupFaults, Line } from "../field";
import { ValvesStand } from "../steps/stands";
import type { CardProps } from "../steps/view";

export function BeforeCard({ sheet, report, withValves, unit, warmth }: CardProps) {
  const isOfMixture = at(sheet.document, "/mixture/air") !== undefined;
  const air = at(sheet.document, "/condition/air") === undefined && isOfMixture ? "/mixture" : "/condition";
  return (
    <>
      <ValvesStand sheet={sheet} report={report} withValves={withValves} part="condition" />
      <fieldset class="group">
        <legend>The engine, as its book has it</legend>
        <p class="hint">With ratio and closing it is told what the gauge should show here.</p>
        <div class="fields narrow">
          <Line
            sheet={sheet}
            at="/condition/compression_ratio"
            label="Compression ratio, as 8.5"
            kind="number"
          />
          <Line
            sheet={sheet}
            at="/condition/intake_closes_abdc"
            label="Intake closes, after bottom dead centre"
            unit="deg"
          />
          <Line sheet={sheet} at="/condition/bore" label="Bore" unit={unit} />
          <Line sheet={sheet} at="/condition/cylinder_volume" label="One piston sweeps" unit="ml" />
        </div>
        <details class="small">
          <summary>± of ratio and closing</summary>
          <div class="fields narrow">
            <Line
              sheet={sheet}
              at="/condition/compression_ratio_uncertainty"
              label="± of the ratio"
              kind="number"
            />
            <Line
              sheet={sheet}
              at="/condition/intake_closes_uncertainty"
              label="± of the closing"
              unit="deg"
            />
          </div>
        </details>
      </fieldset>
      <fieldset class="group">
        <legend>The air around</legend>
        <div class="fields narrow">
          <Line sheet={sheet} at={`${air}/air/altitude`} label="Altitude" unit="m" />
          <Line sheet={sheet} at={`${air}/air/temperature`} label="Temperature of it" unit={warmth} />
        </div>
        <GroupFaults sheet={sheet} places={[`${air}/air`]} />
      </fieldset>
      <GroupFaults sheet={sheet} places={["/condition", "/condition/heads"]} />
    </>
  );
}
