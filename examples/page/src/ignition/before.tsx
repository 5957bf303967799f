// What comes before contacts and timing: the valves, and what the distributor is like.

import { Fields } from "../fields";
import { ValvesStand } from "../steps/stands";
import type { CardProps } from "../steps/view";

export function BeforeCard({ sheet, withValves, report }: CardProps) {
  return (
    <>
      <ValvesStand sheet={sheet} report={report} withValves={withValves} part="ignition" />
      <Fields
        sheet={sheet}
        at="/ignition/distributor"
        of={[
          [
            "/engine/ignition",
            "What lights the charge",
            {
              "": "not said",
              battery: "battery and coil",
              magneto: "magneto",
              electronic: "electronic",
              diesel: "diesel",
            },
          ],
          [
            "rotor",
            "Rotor turns, seen from the cap",
            { "": "not said", clockwise: "clockwise", anticlockwise: "anticlockwise" },
          ],
          ["lobes", "Lobes of the cam", "number"],
          [
            "cam",
            "The cam turns",
            {
              "": "not said",
              half_crank: "once in two turns of the crank",
              crank: "once a turn of the crank",
            },
          ],
          ["clamp", "Body across, at the clamp", "mm", "With it a turn is told along the clamp, too."],
        ]}
      />
    </>
  );
}
