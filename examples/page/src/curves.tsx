// Lash against temperature, for valves at the set value and at both ends of the set band.

import { at, CLEARANCE, put } from "./draft";
import { one, warm, type Shown, type Warm } from "./gaps";
import { Grid, steps } from "./grid";
import type { Document, LashCurve } from "./kernel";
import { answer } from "./whole";
import { KINDS } from "./words";

const WIDTH = 340;
const HEIGHT = 206;
const LEFT = 74;
const FLOOR = 168;
const TOP = 12;

/** Temperatures of the table that is drawn, unless the document asks for its own. */
const TABLES = {
  C: { from: "0 C", to: "120 C", step: "10 K" },
  F: { from: "40 F", to: "240 F", step: "20 F" },
} as const;

const asked = { C: new WeakMap<Document, Document>(), F: new WeakMap<Document, Document>() };

const METAL = `${CLEARANCE}/metal`;

/** The most temperatures that have room under a curve. */
const MOST_LABELS = 7;

/** The document with a table of lash by temperature in its report, if it says how lash follows. */
function withTable(document: Document, warmth: Warm): Document | undefined {
  if (!at(document, `${METAL}/parts`) && !at(document, `${METAL}/measured`)) return undefined;
  if (at(document, `${METAL}/curve`)) return document;
  const known = asked[warmth].get(document);
  if (known) return known;
  const fresh = put(put(document, `${CLEARANCE}/readings`, []), `${METAL}/curve`, TABLES[warmth]);
  asked[warmth].set(document, fresh);
  return fresh;
}

interface Units {
  shown: Shown;
  warmth: Warm;
}

export function Curves({ document, ...units }: { document: Document } & Units) {
  const table = withTable(document, units.warmth);
  const curves = (table && answer(table).report?.clearance.lash_curves) ?? [];
  return (
    <section>
      <h2>Gap against temperature</h2>
      {curves.length > 0 ? (
        <ul class="tiles">
          {curves.map((curve) => (
            <li key={curve.specification + curve.kind}>
              <p class="tile-head">
                <span>{KINDS[curve.kind]}</span>
                <span>{curve.specification}</span>
              </p>
              <Curve curve={curve} {...units} />
              <Numbers curve={curve} {...units} />
            </li>
          ))}
        </ul>
      ) : (
        <p class="empty">
          The job does not say how the gap follows temperature. Under Engine, Book prints more, there is room
          for the parts or for one valve read cold and warm.
        </p>
      )}
    </section>
  );
}

function Curve({ curve, shown, warmth }: { curve: LashCurve } & Units) {
  const { points } = curve;
  const temperatures = points.map((p) => p.temperature.celsius);
  const lash = points.flatMap((p) => [p.low?.mm, p.lash.mm, p.high?.mm].filter((mm) => mm !== undefined));
  const [cold, hot] = [Math.min(...temperatures), Math.max(...temperatures)];
  const every = Math.ceil(points.length / MOST_LABELS);
  const labelled = temperatures.filter((_, i) => i % every === 0);
  const [least, most] = [Math.min(0, ...lash), Math.max(...lash) * 1.05];
  const x = (celsius: number) => LEFT + ((celsius - cold) / (hot - cold || 1)) * (WIDTH - LEFT - 14);
  const y = (mm: number) => FLOOR - ((mm - least) / (most - least || 1)) * (FLOOR - TOP);
  const line = (of: (p: LashCurve["points"][number]) => number | undefined) =>
    points
      .map((p) => [x(p.temperature.celsius), of(p)] as const)
      .filter((pair): pair is [number, number] => pair[1] !== undefined)
      .map(([px, mm]) => `${px.toFixed(1)} ${y(mm).toFixed(1)}`);
  const [low, middle, high] = [line((p) => p.low?.mm), line((p) => p.lash.mm), line((p) => p.high?.mm)];
  const [first, last] = [points[0], points.at(-1)];
  const words =
    first && last
      ? `From ${one(first.lash, shown)} at ${warm(cold, warmth)} to ${one(last.lash, shown)} at ${warm(hot, warmth)}`
      : "No points";
  return (
    <svg class="curve" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={words}>
      {low.length > 0 && high.length > 0 && (
        <path class="zone band" d={`M${low.join("L")}L${[...high].reverse().join("L")}z`} />
      )}
      <Grid
        left={LEFT}
        right={WIDTH - 14}
        floor={FLOOR}
        x={x}
        y={y}
        up={steps(least, most, 5).map((mm) => [mm, one({ mm }, shown)])}
        along={labelled.map((celsius) => [celsius, warm(celsius, warmth).replace(/ .*/, "")])}
        by={`°${warmth}${curve.varies ? ` of the ${curve.varies}` : ", whole engine"}`}
      />
      <path class="limit" d={`M${low.join("L")}`} />
      <path class="limit" d={`M${high.join("L")}`} />
      <path class="set" d={`M${middle.join("L")}`} />
    </svg>
  );
}

function Numbers({ curve, shown, warmth }: { curve: LashCurve } & Units) {
  return (
    <details class="small">
      <summary>As numbers</summary>
      <table>
        <thead>
          <tr>
            <th scope="col">Metal</th>
            <th scope="col">Set value reads</th>
            <th scope="col">Set band reads</th>
          </tr>
        </thead>
        <tbody>
          {curve.points.map((point) => (
            <tr key={point.temperature.celsius}>
              <th scope="row">{warm(point.temperature.celsius, warmth)}</th>
              <td class="number">{one(point.lash, shown)}</td>
              <td class="number">
                {point.low ? one(point.low, shown) : "open"} to {point.high ? one(point.high, shown) : "open"}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
