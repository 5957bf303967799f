// What comes before contacts and timing: the valves, and what the distributor is like.

import { Line, Pick } from "../field";
import { ValvesStand } from "../steps/stands";
import type { CardProps } from "../steps/view";

export function BeforeCard({ sheet, withValves, report }: CardProps) {
  return (
    <>
      <ValvesStand sheet={sheet} report={report} withValves={withValves} part="ignition" />
      <div class="fields">
        <Pick
          sheet={sheet}
          at="/engine/ignition"
          label="What lights the charge"
          choices={[
            ["", "not said"],
            ["battery", "battery and coil"],
            ["magneto", "magneto"],
            ["electronic", "electronic"],
            ["diesel", "diesel"],
          ]}
        />
        <Pick
          sheet={sheet}
          at="/ignition/distributor/rotor"
          label="Rotor turns, seen from the cap"
          choices={[
            ["", "not said"],
            ["clockwise", "clockwise"],
            ["anticlockwise", "anticlockwise"],
          ]}
        />
        <Line sheet={sheet} at="/ignition/distributor/lobes" label="Lobes of the cam" kind="number" />
        <Pick
          sheet={sheet}
          at="/ignition/distributor/cam"
          label="The cam turns"
          choices={[
            ["", "not said"],
            ["half_crank", "once in two turns of the crank"],
            ["crank", "once a turn of the crank"],
          ]}
        />
        <Line
          sheet={sheet}
          at="/ignition/distributor/clamp"
          label="Body across, at the clamp"
          unit="mm"
          hint="With it a turn is told along the clamp, too."
        />
      </div>
    </>
  );
}
