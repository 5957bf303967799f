// Lash against temperature, for valves at the set value and at both ends of the set band.

import { at, put } from "./draft";
import { one, type Shown } from "./gaps";
import { answer, type Document, type LashCurve } from "./kernel";
import { KINDS } from "./words";

const WIDTH = 340;
const HEIGHT = 200;
const LEFT = 74;
const FLOOR = 168;
const TOP = 12;

/** Temperatures of the table that is drawn, unless the document asks for its own. */
const TABLE = { from: "0 C", to: "120 C", step: "10 K" };

const asked = new WeakMap<Document, Document>();

/** The document with a table of lash by temperature in its report, if it says how lash follows. */
function withTable(document: Document): Document | undefined {
  if (!at(document, "/metal/parts") && !at(document, "/metal/measured")) return undefined;
  if (at(document, "/metal/curve")) return document;
  const known = asked.get(document);
  if (known) return known;
  const fresh = put({ ...document, readings: [] }, "/metal/curve", TABLE);
  asked.set(document, fresh);
  return fresh;
}

export function Curves({ document, shown }: { document: Document; shown: Shown }) {
  const table = withTable(document);
  const report = table && answer(table).report;
  return (
    <section>
      <h2>Gap against warmth</h2>
      {report && report.lash_curves.length > 0 ? (
        <ul class="tiles">
          {report.lash_curves.map((curve) => (
            <li key={curve.specification + curve.kind}>
              <p class="tile-head">
                <span>{KINDS[curve.kind]}</span>
                <span>{curve.specification}</span>
              </p>
              <Curve curve={curve} shown={shown} />
              <Numbers curve={curve} shown={shown} />
            </li>
          ))}
        </ul>
      ) : (
        <p class="empty">
          The job does not say how the gap follows warmth. Under Engine, Warmth, there is room for the parts
          or for one valve read cold and warm.
        </p>
      )}
    </section>
  );
}

/** Whole steps between two ends, about so many. */
function steps(from: number, to: number, about: number): number[] {
  const rough = (to - from) / about;
  const ten = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((n) => n * ten).find((n) => n >= rough) ?? rough;
  const first = Math.ceil(from / step);
  return [...Array(Math.floor(to / step) - first + 1).keys()].map((i) => (first + i) * step);
}

function Curve({ curve, shown }: { curve: LashCurve; shown: Shown }) {
  const { points } = curve;
  const warm = points.map((p) => p.temperature.celsius);
  const lash = points.flatMap((p) => [p.low?.mm, p.lash.mm, p.high?.mm].filter((mm) => mm !== undefined));
  const [cold, hot] = [Math.min(...warm), Math.max(...warm)];
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
      ? `From ${one(first.lash, shown)} at ${cold} °C to ${one(last.lash, shown)} at ${hot} °C`
      : "No points";
  return (
    <svg class="curve" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={words}>
      {low.length > 0 && high.length > 0 && (
        <path class="zone band" d={`M${low.join("L")}L${[...high].reverse().join("L")}z`} />
      )}
      {steps(least, most, 5).map((mm) => (
        <g key={mm} class="grid">
          <path d={`M${LEFT} ${y(mm)}H${WIDTH - 14}`} />
          <text x={LEFT - 6} y={y(mm) + 4} text-anchor="end">
            {one({ mm }, shown)}
          </text>
        </g>
      ))}
      {steps(cold, hot, 6).map((celsius) => (
        <g key={celsius} class="grid">
          <path d={`M${x(celsius)} ${FLOOR}v5`} />
          <text x={x(celsius)} y={FLOOR + 18} text-anchor="middle">
            {celsius}
          </text>
        </g>
      ))}
      <text x={WIDTH - 14} y={HEIGHT - 2} text-anchor="end">
        °C{curve.varies ? ` of the ${curve.varies}` : ", whole engine"}
      </text>
      <path class="limit" d={`M${low.join("L")}`} />
      <path class="limit" d={`M${high.join("L")}`} />
      <path class="set" d={`M${middle.join("L")}`} />
    </svg>
  );
}

function Numbers({ curve, shown }: { curve: LashCurve; shown: Shown }) {
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
              <th scope="row">{Number(point.temperature.celsius.toFixed(1))} °C</th>
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
