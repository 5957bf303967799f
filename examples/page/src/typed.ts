// What is being typed in a field, until it is written.

import { useLayoutEffect, useState } from "preact/hooks";

/**
 * The text of a field; it follows the value when that changes. Before the next paint, so that nothing which is
 * typed in a field the moment it is there is put back by an effect that comes late.
 */
export function useTyped(value: string) {
  const [typed, setTyped] = useState(value);
  useLayoutEffect(() => setTyped(value), [value]);
  return [typed, setTyped] as const;
}
