// An engine on one screen: a tile for its layout, then only what has to be said before stop 1.

import type { ComponentChildren } from "preact";
import { asText, at } from "./draft";
import { Chips, Line, type Sheet } from "./field";
import { engineOf, LAYOUTS } from "./layouts";
import type { Document } from "./kernel";
import { moveJob, writeJob, type Job } from "./state";

/** In the place of a layout: none is tapped yet, and one that has no tile. */
export const NEW = "new";
const OTHER = "other";

function Picture({ path }: { path: string }) {
  return (
    <svg viewBox="0 0 48 32" aria-hidden="true">
      <path d={path} />
    </svg>
  );
}

/** The layouts as tiles. */
export function Tiles({ job }: { job: Job }) {
  const take = (id: string) => {
    const layout = LAYOUTS[id];
    if (!layout) return moveJob({ layout: OTHER });
    const { document } = job;
    const engine = engineOf(layout, document.engine);
    // No. 1 is the one whose mark can be found.
    const clearance = { ...document.clearance, start: "1" };
    writeJob({ ...document, engine, clearance }, `layout: ${layout.name}`, { layout: id });
  };
  return (
    <section class="layouts">
      <h2>What engine?</h2>
      <div class="layout-tiles">
        {Object.entries(LAYOUTS).map(([id, { name, picture }]) => (
          <button type="button" key={id} onClick={() => take(id)}>
            <Picture path={picture} />
            {name}
          </button>
        ))}
        <button type="button" class="other" onClick={() => take(OTHER)}>
          Another engine: type it
        </button>
      </div>
    </section>
  );
}

/** The layout that was tapped, its firing order, and which way the engine stands and runs. */
export function LayoutForm({ job, sheet }: { job: Job; sheet: Sheet }) {
  const { engine } = job.document;
  const layout = LAYOUTS[job.layout];
  const order = engine.firing_order.join(" ");
  return (
    <>
      {layout && (
        <div class="layout-head">
          <Picture path={layout.picture} />
          <strong>{layout.name}</strong>
          <button type="button" class="quiet" onClick={() => moveJob({ layout: NEW })}>
            Another layout
          </button>
        </div>
      )}
      {layout && layout.orders.length > 1 && (
        <Chips
          legend="Firing order, as your book prints it"
          name="order"
          value={order}
          choices={layout.orders.map(
            (one) => [one, one.replaceAll(" ", layout.cylinders > 4 ? "" : "-")] as const,
          )}
          pick={(one) => sheet.write("/engine/firing_order", one.split(" "))}
          wide
        />
      )}
      {layout?.angles && <Angle angles={layout.angles} engine={engine} sheet={sheet} />}
      {(!layout || layout.cylinders > 1) && (
        <div class="pair">
          <Chips
            legend="No. 1 is at the"
            name="numbering"
            value={asText(engine.numbering)}
            choices={[
              ["free_end", "pulley"],
              ["output_end", "flywheel"],
            ]}
            pick={(end) => sheet.write("/engine/numbering", end)}
          />
          <Sense sheet={sheet} />
        </div>
      )}
      {layout?.cylinders === 1 && <Sense sheet={sheet} />}
    </>
  );
}

function Sense({ sheet }: { sheet: Sheet }) {
  const seen = asText(at(sheet.document, "/engine/rotation/seen_from"));
  return (
    <Chips
      legend={`Turns, from ${seen === "output_end" ? "flywheel" : "pulley"}`}
      name="sense"
      value={asText(at(sheet.document, "/engine/rotation/sense"))}
      choices={[
        ["clockwise", "right ↻"],
        ["anticlockwise", "left ↺"],
      ]}
      pick={(sense) => sheet.write("/engine/rotation/sense", sense)}
    />
  );
}

interface AngleProps {
  angles: readonly string[];
  engine: Document["engine"];
  sheet: Sheet;
}

/** The angle of a V on one crankpin, and which of its cylinders the pin passes first. */
function Angle({ angles, engine, sheet }: AngleProps) {
  const [one, two] = engine.cylinders.map(({ bank }) => asText(bank));
  const second = two === "0 deg";
  const angle = (second ? one : two) ?? "";
  const write = (angle: string, second: boolean) => {
    const banks = second ? [angle, "0 deg"] : ["0 deg", angle];
    sheet.write(
      "/engine/cylinders",
      engine.cylinders.map((cylinder, i) => ({ ...cylinder, bank: banks[i] })),
    );
  };
  return (
    <div class="pair three-two">
      <Chips
        legend="V angle"
        name="angle"
        value={angle}
        choices={angles.map((one) => [one, one.replace(" deg", "°")] as const)}
        pick={(next) => write(next, second)}
      />
      <Chips
        legend="Pin passes first"
        name="first"
        value={second ? "2" : "1"}
        choices={[
          ["1", "no. 1"],
          ["2", "no. 2"],
        ]}
        pick={(first) => write(angle, first === "2")}
      />
    </div>
  );
}

const PITCHES = [
  ["?", "?"],
  ["pitch 1 mm", "1.0"],
  ["pitch 0.75 mm", "0.75"],
  ["tpi 24", "24"],
  ["tpi 26", "26"],
] as const;

/** What sets the gap, and how far a turn goes. */
export function AdjusterRow({ sheet }: { sheet: Sheet }) {
  const valves = at(sheet.document, "/valves") as Record<string, unknown>;
  const screw = valves.screw as Record<string, unknown> | undefined;
  const value = screw ? asText(screw.seat) : valves.shim ? "shim" : "none";
  const set = (next: string) => {
    const { screw: _, shim: _s, ...rest } = valves;
    if (next === "shim") return sheet.write("/valves", { ...rest, shim: { ratio: 1 } });
    const kept = screw ?? {};
    sheet.write("/valves", next === "none" ? rest : { ...rest, screw: { ...kept, seat: next } });
  };
  const pitch = screw?.pitch
    ? `pitch ${asText(screw.pitch)}`
    : screw?.threads_per_inch
      ? `tpi ${screw.threads_per_inch}`
      : "";
  const pick = (next: string) => {
    // Without a pitch no turn is told, so the screw says nothing.
    if (next === "?") return set("none");
    const { pitch: _, threads_per_inch: _t, ...rest } = screw ?? {};
    const [what = "", ...size] = next.split(" ");
    const said = { pitch: { pitch: size.join(" ") }, tpi: { threads_per_inch: Number(size[0]) } }[what];
    sheet.write("/valves/screw", { ...rest, ...said });
  };
  return (
    <>
      <Chips
        legend="Screw at valve, pushrod, stud; or shims"
        name="adjuster"
        value={value}
        choices={[
          ["none", "?"],
          ["valve_side", "valve"],
          ["cam_side", "rod"],
          ["pivot", "stud"],
          ["shim", "shims"],
        ]}
        pick={set}
      />
      {screw && (
        <Chips
          legend="Its pitch, mm or threads an inch"
          name="pitch"
          value={pitch}
          choices={PITCHES}
          pick={pick}
        />
      )}
    </>
  );
}

interface FiguresProps {
  sheet: Sheet;
  unit: string;
  /** Stands beside what is folded away. */
  children: ComponentChildren;
}

/** The two figures that every book prints. */
export function Figures({ sheet, unit, children }: FiguresProps) {
  const line = (kind: "intake" | "exhaust", step: string, label: string) => (
    <Line
      key={kind + step}
      sheet={sheet}
      at={`/specifications/0/${kind}/${step}`}
      label={label}
      unit={unit}
    />
  );
  return (
    <div class="pair">
      {line("intake", "set_to", "Intake: gap to set")}
      {line("exhaust", "set_to", "Exhaust: gap to set")}
      <details class="small">
        <summary>Min and max</summary>
        <div class="pair">
          {line("intake", "set/from", "Intake, min")}
          {line("intake", "set/to", "max")}
          {line("exhaust", "set/from", "Exhaust, min")}
          {line("exhaust", "set/to", "max")}
          {line("intake", "plus_minus", "Intake, or ±")}
          {line("exhaust", "plus_minus", "Exhaust, or ±")}
        </div>
      </details>
      {children}
    </div>
  );
}
