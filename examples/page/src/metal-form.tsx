// How warm the metal is, and how the gap follows: from parts, from readings at two temperatures, or not said.

import { asText, at } from "./draft";
import { GroupFaults, Line, Pick, type Sheet } from "./field";
import { CoolingForm } from "./cooling-form";
import { Warmth } from "./warmth";

type How = "alone" | "measured" | "parts";

const START: Record<How, Record<string, unknown>> = {
  alone: {},
  measured: {
    measured: [
      { at: "", lash: "", uncertainty: "" },
      { at: "", lash: "", uncertainty: "" },
    ],
    temperature: { is: "" },
  },
  parts: {
    temperatures: [{ name: "engine", is: "" }],
    parts: [part("cam"), part("cam")],
  },
};

function part(side: string) {
  const effect = "opens";
  return { part: "", material: "", length: "", length_uncertainty: "", side, effect, follows: "engine" };
}

export function MetalForm({ sheet, warmth }: { sheet: Sheet; warmth: "C" | "F" }) {
  const metal = at(sheet.document, "/metal") as Record<string, unknown> | undefined;
  const how: How = metal?.parts ? "parts" : metal?.measured ? "measured" : "alone";
  const change = (next: How) => {
    if (next === how) return;
    // What goes with one of them only is begun anew; the rest stays. Undo brings all of it back.
    const { parts: _, measured: _m, temperatures: _t, use: _u, ...rest } = metal ?? {};
    const whole = { ...rest, ...START[next] };
    if (next === "parts") delete (whole as Record<string, unknown>).temperature;
    sheet.write("/metal", Object.keys(whole).length > 0 ? whole : undefined);
  };
  return (
    <fieldset class="group">
      <legend>Temperature</legend>
      <Warmth sheet={sheet} unit={warmth} />
      <div class="field">
        <label for="metal.how">How the gap follows temperature</label>
        <select id="metal.how" value={how} onChange={(event) => change(event.currentTarget.value as How)}>
          <option value="alone">not said: gaps are not corrected</option>
          <option value="measured">from one valve read cold and warm</option>
          <option value="parts">from the parts between cam and valve</option>
        </select>
      </div>
      {how === "measured" && <Measured sheet={sheet} list={metal?.measured as unknown[]} warmth={warmth} />}
      {how === "parts" && <Parts sheet={sheet} list={metal?.parts as unknown[]} />}
      {(how !== "alone" || metal?.cooling !== undefined) && <CoolingForm sheet={sheet} warmth={warmth} />}
      <GroupFaults
        sheet={sheet}
        places={["/metal", "/metal/measured", "/metal/parts", "/metal/temperature", "/metal/temperatures"]}
      />
    </fieldset>
  );
}

interface ListProps {
  sheet: Sheet;
  list: unknown[];
}

function Measured({ sheet, list, warmth }: ListProps & { warmth: string }) {
  const place = "/metal/measured";
  return (
    <>
      {list.map((_, i) => (
        <div class="fields narrow" key={i}>
          <Line sheet={sheet} at={`${place}/${i}/at`} label={`Reading ${i + 1}: metal at`} unit={warmth} />
          <Line sheet={sheet} at={`${place}/${i}/lash`} label="Gap" unit="mm" />
          <Line sheet={sheet} at={`${place}/${i}/uncertainty`} label="±" unit="mm" />
        </div>
      ))}
      <button
        type="button"
        onClick={() => sheet.write(place, [...list, { at: "", lash: "", uncertainty: "" }])}
      >
        One more reading
      </button>
    </>
  );
}

function Parts({ sheet, list }: ListProps) {
  const place = "/metal/parts";
  return (
    <>
      {list.map((one, i) => (
        <div class="fields narrow part" key={i}>
          <Line sheet={sheet} at={`${place}/${i}/part`} label={`Part ${i + 1}`} kind="text" />
          <Line sheet={sheet} at={`${place}/${i}/material`} label="Material" kind="text" />
          <Line sheet={sheet} at={`${place}/${i}/length`} label="Length" unit="mm" />
          <Line sheet={sheet} at={`${place}/${i}/length_uncertainty`} label="±" unit="mm" />
          <Pick
            sheet={sheet}
            at={`${place}/${i}/side`}
            label="It is on the"
            choices={[
              ["cam", "cam side"],
              ["valve", "valve side"],
            ]}
          />
          <Pick
            sheet={sheet}
            at={`${place}/${i}/effect`}
            label="When it grows, the gap"
            choices={[
              ["opens", "opens"],
              ["closes", "closes"],
            ]}
          />
          <button type="button" class="quiet" onClick={() => sheet.write(`${place}/${i}`, undefined)}>
            Take out {asText((one as { part?: unknown }).part) || `part ${i + 1}`}
          </button>
        </div>
      ))}
      <button type="button" onClick={() => sheet.write(place, [...list, part("cam")])}>
        One more part
      </button>
    </>
  );
}
