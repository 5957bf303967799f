// What the kernel found of one thing and what to do about it, in its own words.

import type { WorkAdvice, MeasuredReport } from "../kernel";
import { Lines } from "../lines";
import { chance, sentence, VERDICTS } from "../words";

/** A quantity against the book. */
export function Measured({ of: what, judged }: { of: string; judged: MeasuredReport | null | undefined }) {
  if (!judged) return null;
  const { verdict, verdict_text, found, limits, probabilities } = judged;
  return (
    <>
      <p class="verdict">
        <span class={`sign ${verdict}`}>
          <span aria-hidden="true">{VERDICTS[verdict].sign}</span> {verdict_text}
        </span>
        <span class="against">{what}</span>
      </p>
      <p class="facts-line">
        {found}; book {limits}; in band {chance(probabilities.in_band)}
      </p>
    </>
  );
}

/** What to do: what must be sure comes before it, what must read then after it. */
export function Advice({ advice }: { advice: WorkAdvice }) {
  return (
    <>
      {advice.action === "set" && advice.first.length > 0 && (
        <>
          <p>First make sure:</p>
          <Lines lines={advice.first} />
        </>
      )}
      <p class="do">{sentence(advice.text)}</p>
      {advice.action === "set" && <p>{sentence(`then it reads ${advice.then_reads}`)}</p>}
      {advice.action === "find_cause" && advice.causes.length > 0 && (
        <>
          <p>Look at:</p>
          <Lines lines={advice.causes} />
        </>
      )}
    </>
  );
}

/** Single texts of the kernel; those that it has nothing to say in are left out. */
export function Texts({ texts }: { texts: readonly (string | null | undefined)[] }) {
  const said = texts.filter((text) => text != null);
  return said.length > 0 ? <Lines look="plain" lines={said} /> : null;
}

/** A number with so many decimals, and no minus before a nought. */
export const fixed = (number: number, decimals: number): string =>
  number.toFixed(decimals).replace(/^-(0(?:\.0*)?)$/, "$1");

/** A number of degrees as it is shown. */
export const tenth = (deg: number): string => fixed(deg, 1);

interface TableProps {
  label: string;
  head: readonly string[];
  /** Of each row the cells, the first of which names it. */
  rows: readonly (readonly (string | number)[])[];
}

/** Numbers beside a drawing; with large letters they scroll by themselves. */
export function Table({ label, head, rows }: TableProps) {
  return (
    <div class="scroll" role="region" aria-label={label} tabIndex={0}>
      <table>
        <thead>
          <tr>
            {head.map((text) => (
              <th scope="col" key={text}>
                {text}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(([name, ...cells], i) => (
            <tr key={i}>
              <th scope="row">{name}</th>
              {cells.map((cell, i) => (
                <td key={i}>{cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
