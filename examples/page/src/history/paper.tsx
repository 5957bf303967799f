// Past services on paper: what moves unlike the others first, then when to look next.

import type { Document } from "../kernel";
import { Lines } from "../lines";
import { sentence } from "../words";
import { pastOf } from "../steps/ask";
import { Odd } from "./odd";
import { toldOf } from "./told";

export function paperOf(document: Document) {
  const { report } = pastOf(document);
  const told = report ? toldOf(report) : [];
  if (!report || told.length === 0) return undefined;
  return {
    report,
    stop: <Odd told={told} />,
    shown: (
      <section>
        <h3>History</h3>
        {told.map(({ next, kinds, subjects, alike }, i) => (
          <div key={i}>
            {next && <p class="do">{sentence(next)}</p>}
            <Lines look="plain" lines={kinds} />
            {alike.map(({ texts, advice }, i) => (
              <Lines key={i} look="plain" lines={[...texts, advice.text]} />
            ))}
            <Lines
              look="plain"
              lines={subjects.flatMap(({ name, forecast_text }, own) =>
                forecast_text && !alike.some(({ subjects }) => subjects.includes(own))
                  ? `${name}: ${forecast_text}`
                  : [],
              )}
            />
          </div>
        ))}
      </section>
    ),
  };
}
