// Past services on paper: what moves unlike the others first, then when to look next.

import type { Document } from "../kernel";
import { Lines } from "../lines";
import { sentence } from "../words";
import { pastOf } from "../steps/ask";
import { Odd } from "./odd";

export function paperOf(document: Document) {
  const { report } = pastOf(document);
  const lash = report?.history?.lash;
  if (!report || !lash) return undefined;
  return {
    report,
    stop: <Odd lash={lash} />,
    shown: (
      <section>
        <h3>History</h3>
        {lash.next && <p class="do">{sentence(lash.next)}</p>}
        <Lines look="plain" lines={lash.kinds} />
        <Lines
          look="plain"
          lines={lash.valves.flatMap(({ name, forecast_text }) =>
            forecast_text ? `${name}: ${forecast_text}` : [],
          )}
        />
      </section>
    ),
  };
}
