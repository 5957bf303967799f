// The figures a maker prints, and the screw that sets them.

import { asText, at } from "./draft";
import { GroupFaults, Line, Pick, type Sheet } from "./field";
import { ShimForm } from "./shim-form";
import { KINDS } from "./words";

interface Props {
  sheet: Sheet;
  unit: string;
}

/** Figures of both kinds of valve in the book at `place`; `rest` are those that do not stand elsewhere already. */
export function LimitsForm({ sheet, unit, place, rest }: Props & { place: string; rest?: boolean }) {
  const name = asText(at(sheet.document, `${place}/document`)) || asText(at(sheet.document, `${place}/id`));
  return (
    <>
      {(["intake", "exhaust"] as const).map((kind) => {
        const line = (step: string, label: string) => (
          <Line sheet={sheet} at={`${place}/${kind}/${step}`} label={label} unit={unit} />
        );
        return (
          <fieldset class="group" key={kind}>
            <legend>
              {KINDS[kind]} {name && <small>by {name}</small>}
            </legend>
            <div class="fields narrow">
              {!rest && line("set_to", "Gap to set")}
              {!rest && line("set/from", "Allowed when setting, min")}
              {!rest && line("set/to", "max")}
              {line("leave_alone/from", "Allowed when checking, min")}
              {line("leave_alone/to", "max")}
            </div>
            <GroupFaults
              sheet={sheet}
              places={["", "/set", "/leave_alone"].map((part) => `${place}/${kind}${part}`)}
            />
          </fieldset>
        );
      })}
    </>
  );
}

/** The adjusting screw and the rocker, or the shims. */
export function ScrewForm({ sheet }: { sheet: Sheet }) {
  const how = ["screw", "shim"].find((part) => at(sheet.document, `/valves/${part}`) !== undefined) ?? "none";
  const change = (next: string) => {
    if (next === how) return;
    const rest = { ...(at(sheet.document, "/valves") as Record<string, unknown>) };
    delete rest.screw;
    delete rest.shim;
    if (next === "screw") rest.screw = { seat: "valve_side" };
    if (next === "shim") rest.shim = { gap_per_shim: 1 };
    sheet.write("/valves", rest);
  };
  return (
    <fieldset class="group">
      <legend>Adjuster</legend>
      <div class="fields">
        <div class="field">
          <label for="adjuster">Set with</label>
          <select id="adjuster" value={how} onChange={(event) => change(event.currentTarget.value)}>
            <option value="none">not said</option>
            <option value="screw">a screw</option>
            <option value="shim">shims</option>
          </select>
        </div>
        {how === "screw" && <Screw sheet={sheet} />}
        <Line
          sheet={sheet}
          at="/valves/rocker_ratio"
          label="Rocker ratio (valve end over pushrod end)"
          kind="number"
        />
      </div>
      {how === "shim" && <ShimForm sheet={sheet} />}
      <GroupFaults sheet={sheet} places={["/valves/screw"]} />
    </fieldset>
  );
}

function Screw({ sheet }: { sheet: Sheet }) {
  return (
    <>
      <Line sheet={sheet} at="/valves/screw/pitch" label="Pitch" unit="mm" />
      <Line sheet={sheet} at="/valves/screw/threads_per_inch" label="or threads per inch" kind="number" />
      <Pick
        sheet={sheet}
        at="/valves/screw/seat"
        label="The screw is"
        choices={[
          ["pivot", "the nut on the rocker's stud"],
          ["eccentric", "an eccentric, without a thread"],
          ["valve_side", "at the valve end of the rocker"],
          ["cam_side", "at the pushrod or cam end"],
        ]}
      />
      <Pick
        sheet={sheet}
        at="/valves/screw/turning_in"
        label="Screwing in makes the gap"
        choices={[
          ["", "not said"],
          ["closes_gap", "smaller"],
          ["opens_gap", "larger"],
        ]}
      />
    </>
  );
}
