// What moves unlike their mates: said before everything else.

import type { QuantityHistoryReport } from "../kernel";
import { Lines } from "../lines";

export function Odd({ told }: { told: readonly QuantityHistoryReport[] }) {
  const subjects = told.flatMap(({ subjects }) => subjects);
  const odd = subjects.flatMap(({ name, odd }) => (odd?.text ? `${name}: ${odd.text}` : []));
  if (odd.length === 0) return null;
  return (
    <section class="problems" aria-label="Moves unlike the others">
      <h3>Moves unlike the others</h3>
      <Lines look="plain" lines={odd} />
    </section>
  );
}
