// Long text that is typed or pasted and not taken yet: it outlives a closed tab too.

import { useState } from "preact/hooks";
import { load, save } from "./store";

const isText = (value: unknown): value is string => typeof value === "string";

/** The text of a slot, kept at every change; nothing is kept when there is none. */
export function useTypedText(slot: "pasted" | "edited") {
  const [text, setText] = useState(() => load(slot, isText));
  const change = (next: string | undefined) => {
    save(slot, next);
    setText(next);
  };
  return [text, change] as const;
}
