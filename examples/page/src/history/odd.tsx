// Valves that move unlike their mates: said before everything else.

import type { LashHistoryReport } from "../kernel";
import { Lines } from "../lines";

export function Odd({ lash }: { lash: LashHistoryReport }) {
  const odd = lash.valves.flatMap(({ name, odd }) => (odd?.text ? `${name}: ${odd.text}` : []));
  if (odd.length === 0) return null;
  return (
    <section class="problems" aria-label="Moves unlike the others">
      <h3>Moves unlike the others</h3>
      <Lines look="plain" lines={odd} />
    </section>
  );
}
