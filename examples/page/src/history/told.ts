// What past services say, quantity by quantity, in the order of work.

import type { AnyReport, QuantityHistoryReport } from "../kernel";

export function toldOf({ history }: AnyReport): QuantityHistoryReport[] {
  if (!history) return [];
  const { lash, compression, leak_area, dwell, timing } = history;
  return [lash, compression, leak_area, dwell, timing].filter((told) => told !== null);
}
