// How many valves there are and when the cam opens them.

import { GroupFaults, Line, type Sheet } from "./field";

export function ValvesForm({ sheet }: { sheet: Sheet }) {
  const events = [
    ["intake_opens_btdc", "Intake opens before TDC"],
    ["intake_closes_abdc", "Intake closes after BDC"],
    ["exhaust_opens_bbdc", "Exhaust opens before BDC"],
    ["exhaust_closes_atdc", "Exhaust closes after TDC"],
  ] as const;
  return (
    <fieldset class="group">
      <legend>Valves</legend>
      <div class="fields">
        <Line
          sheet={sheet}
          at="/valves/intake_per_cylinder"
          label="Intake valves in a cylinder"
          kind="number"
        />
        <Line
          sheet={sheet}
          at="/valves/exhaust_per_cylinder"
          label="Exhaust valves in a cylinder"
          kind="number"
        />
        <Line
          sheet={sheet}
          at="/valves/guard"
          label="Stay clear of the cam ramps by"
          unit="deg"
          hint="Crank degrees at both ends that are not used."
        />
      </div>
      <GroupFaults sheet={sheet} places={["/valves", "/valves/events"]} />
      <details>
        <summary>Cam events, if the book prints them</summary>
        <div class="fields">
          {events.map(([step, label]) => (
            <Line key={step} sheet={sheet} at={`/valves/events/${step}`} label={label} unit="deg" />
          ))}
        </div>
      </details>
    </fieldset>
  );
}
