// Every spark round the rotor's turn: where it belongs, what it may be off, where it comes.

import type { EvennessReport } from "../kernel";
import { sentence } from "../words";
import { tenth } from "./told";

const MIDDLE = 160;
const RING = 104;
const NAMES = 138;

/** Degrees of the dial for a crank degree: as many as leave the sparks apart. */
const SCALES = [20, 10, 5, 2, 1, 0.5, 0.2, 0.1];

interface Props {
  found: EvennessReport;
  /** How the rotor turns, seen from the cap; drawn clockwise where it is not said. */
  rotor: string;
}

export function FiringDial({ found, rotor }: Props) {
  const { lobes, once_round: wave } = found;
  if (lobes.length === 0) return null;
  const way = rotor === "anticlockwise" ? -1 : 1;
  const tolerance = found.tolerance?.deg ?? 0;
  const places = lobes.map(({ place }) => place.deg);
  const apart = Math.min(360, ...places.map((at, i) => (places[i + 1] ?? 360) - at));
  const farthest = Math.max(tolerance, ...lobes.map((l) => Math.abs(l.late_deg) + l.uncertainty_deg));
  const scale = SCALES.find((scale) => scale * farthest < 0.45 * apart) ?? 0.1;
  const at = (deg: number, radius: number): [number, number] => {
    const angle = (way * deg * Math.PI) / 180;
    return [MIDDLE + radius * Math.sin(angle), MIDDLE - radius * Math.cos(angle)];
  };
  const to = (deg: number, radius: number) =>
    at(deg, radius)
      .map((n) => n.toFixed(1))
      .join(" ");
  const arc = (from: number, until: number, radius: number) =>
    `M${to(from, radius)}A${radius} ${radius} 0 ${until - from > 180 ? 1 : 0} ${way > 0 ? 1 : 0} ${to(until, radius)}`;
  const first = lobes[0]?.cylinder ?? "";
  return (
    <figure class="dial">
      <svg
        viewBox={`0 0 ${2 * MIDDLE} ${2 * MIDDLE}`}
        role="img"
        aria-label={`${lobes.length} sparks round a turn of the rotor: ${found.verdict_text}. The numbers stand below.`}
      >
        <circle cx={MIDDLE} cy={MIDDLE} r={RING} />
        {lobes.map(({ cylinder, place, late_deg: late, uncertainty_deg: u }) => {
          const spark = place.deg + scale * late;
          const [x, y] = at(place.deg, NAMES);
          return (
            <g key={cylinder} class="stop" fill="none" stroke="var(--ink)" stroke-width="3">
              <path
                stroke="var(--in-band)"
                stroke-width="14"
                opacity="0.4"
                d={arc(place.deg - scale * tolerance, place.deg + scale * tolerance, RING)}
              />
              <path
                stroke-dasharray="3 3"
                stroke-width="2"
                d={`M${to(place.deg, RING - 13)}L${to(place.deg, RING + 13)}`}
              />
              <path d={arc(spark - scale * u, spark + scale * u, RING - 22)} />
              <path d={`M${to(spark, RING - 36)}L${to(spark, RING)}`} />
              <circle cx={at(spark, RING)[0]} cy={at(spark, RING)[1]} r="6" />
              <text x={x} y={y + 6} text-anchor="middle" stroke="none">
                {cylinder}
              </text>
            </g>
          );
        })}
        {wave?.latest_at && (
          <g stroke="var(--deep)" stroke-width="5">
            <path d={`M${MIDDLE} ${MIDDLE}L${to(wave.latest_at.deg, RING - 44)}`} />
            <circle cx={MIDDLE} cy={MIDDLE} r="4" />
          </g>
        )}
      </svg>
      <figcaption>
        Drawn the way the rotor turns{rotor ? `, ${rotor} seen from the cap` : ", here clockwise"}; top is
        where {first} belongs. A crank degree is drawn as {scale}° of the dial. Band: what is allowed; dot:
        where it comes, with its doubt inside.
        {wave?.latest_at && " The arm in the middle points to where a spark comes latest."}
      </figcaption>
      <table>
        <thead>
          <tr>
            <th scope="col">Cylinder</th>
            <th scope="col">Late, crank deg</th>
            <th scope="col">±</th>
            <th scope="col">Verdict</th>
          </tr>
        </thead>
        <tbody>
          {lobes.map(({ cylinder, late_deg: late, uncertainty_deg: u, judged }) => (
            <tr key={cylinder}>
              <th scope="row">{cylinder}</th>
              <td class="number">{tenth(late)}</td>
              <td class="number">{tenth(u)}</td>
              <td>{sentence(judged.verdict_text)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </figure>
  );
}
