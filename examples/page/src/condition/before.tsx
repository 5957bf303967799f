// What the readings are held against: valves, ratio, closing of the intake, the air around, the bore.

import { at } from "../draft";
import { GroupFaults } from "../field";
import { Fields, Fold, Group } from "../fields";
import { ValvesStand } from "../steps/stands";
import { Heads } from "./head";
import type { CardProps } from "../steps/view";

export function BeforeCard({ sheet, report, withValves, unit, warmth }: CardProps) {
  const isOfMixture = at(sheet.document, "/mixture/air") !== undefined;
  const air = at(sheet.document, "/condition/air") === undefined && isOfMixture ? "/mixture" : "/condition";
  return (
    <>
      <ValvesStand sheet={sheet} report={report} withValves={withValves} part="condition" />
      <Group
        title="The engine, as its book has it"
        hint="With ratio and closing it is told what the gauge should show here."
      >
        <Fields
          sheet={sheet}
          of={[
            ["/condition/compression_ratio", "Compression ratio, as 8.5", "number"],
            ["/condition/intake_closes_abdc", "Intake closes, after bottom dead centre", "deg"],
            ["/condition/bore", "Bore", unit],
            ["/condition/cylinder_volume", "One piston sweeps", "ml"],
          ]}
        />
        <Fold
          title="± of ratio and closing; heads"
          sheet={sheet}
          of={[
            ["/condition/compression_ratio_uncertainty", "± of the ratio", "number"],
            ["/condition/intake_closes_uncertainty", "± of the closing", "deg"],
            <Heads sheet={sheet} />,
          ]}
        />
      </Group>
      <Group
        title="The air around"
        sheet={sheet}
        at={`${air}/air`}
        of={[
          ["altitude", "Altitude", "m"],
          ["temperature", "Temperature of it", warmth],
        ]}
        faults={[`${air}/air`]}
      />
      <GroupFaults sheet={sheet} places={["/condition"]} />
    </>
  );
}
