// What is the same from job to job: units, leaves, rule, looks.

import { checked } from "./check";
import { put } from "./draft";
import { Chips, Line, Pick, type Sheet } from "./field";
import { LeafSet } from "./leaf-set";
import { changeSettings, LEAVES, SPREADS, type Settings, type State, type Unit } from "./state";
import { RULES } from "./words";

export function SettingsView({ state }: { state: State }) {
  const { settings } = state;
  const { problems } = checked(state.quick, settings);
  const gauge: Sheet = {
    document: settings,
    problems,
    // An empty field stays an empty text, so that the settings keep their shape.
    write: (pointer, value) =>
      changeSettings(put(settings, pointer, value ?? (pointer === "/spread" ? "" : value))),
  };
  // A set of leaves goes with the unit they are marked in, unless it is the owner's own.
  const changeUnit = (unit: Unit) => {
    const own = String(settings.gauge.leaves) !== String(LEAVES[settings.unit]);
    const bought = own ? {} : { gauge: { ...settings.gauge, leaves: LEAVES[unit] } };
    const feel = settings.spread === SPREADS[settings.unit] ? { spread: SPREADS[unit] } : {};
    changeSettings({ unit, ...bought, ...feel });
  };
  return (
    <div class="view settings">
      <h1>Settings</h1>
      <section class="card">
        <h2>Units</h2>
        <Chips
          legend="Gaps are shown and typed in"
          name="settings.unit"
          value={settings.unit}
          choices={[
            ["mm", "mm"],
            ["in", "inch"],
          ]}
          pick={changeUnit}
          wide
        />
        <Chips
          legend="Temperatures are typed in"
          name="settings.warmth"
          value={settings.warmth}
          choices={[
            ["C", "°C"],
            ["F", "°F"],
          ]}
          pick={(warmth) => changeSettings({ warmth })}
          wide
        />
      </section>
      <section class="card">
        <h2>My leaves</h2>
        <LeafSet state={state} problems={problems} />
        <div class="fields">
          <Line
            sheet={gauge}
            at="/gauge/tolerance"
            label="Tolerance of a leaf, ±"
            unit={settings.unit}
            hint="As printed on the set. Without it the kernel takes one and says so."
          />
          <Pick
            sheet={gauge}
            at="/gauge/stack_tolerance"
            label="Tolerances of leaves put together"
            choices={[
              ["worst_case", "add up (worst case)"],
              ["root_sum_square", "partly cancel (root of squares)"],
            ]}
          />
          <Line
            sheet={gauge}
            at="/spread"
            label="My feel for a light drag, ±"
            unit={settings.unit}
            hint="How much several tries at one gap differ, as a standard deviation."
          />
        </div>
      </section>
      <section class="card">
        <h2>Strictness</h2>
        <RuleChips settings={settings} />
      </section>
      <section class="card">
        <h2>Looks</h2>
        <Chips
          legend="Light or dark"
          name="settings.theme"
          value={settings.theme}
          choices={[
            ["auto", "as the device"],
            ["light", "light"],
            ["dark", "dark"],
          ]}
          pick={(theme) => changeSettings({ theme })}
          wide
        />
      </section>
      <p class="hint">
        Everything stays on this device: nothing is sent anywhere. A browser may clear what a page has saved,
        so save jobs that matter as files. The engine maker's manual, local codes and licensed practice come
        first; this page only computes.
      </p>
    </div>
  );
}

function RuleChips({ settings }: { settings: Settings }) {
  const rules = Object.entries(RULES) as [Settings["rule"], readonly [string, string]][];
  return (
    <div class="stack">
      {rules.map(([rule, [name, words]]) => (
        <label class="check" key={rule}>
          <input
            type="radio"
            name="settings.rule"
            checked={settings.rule === rule}
            onChange={() => changeSettings({ rule })}
          />
          <span>
            <strong>{name}.</strong> {words}
          </span>
        </label>
      ))}
    </div>
  );
}
