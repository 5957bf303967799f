// The invented engine that the page opens with.

import inlineFour from "../../data/inline-four.json";
import type { Document } from "./kernel";

export interface Preset {
  id: string;
  document: Document;
}

export const preset = (id: string, document: unknown): Preset => ({ id, document: document as Document });

export const FIRST_PRESET = preset("inline-four", inlineFour);

/** What the quick check opens with: the engine's own book, without the card that is for older engines. */
export const firstBase = (): Document => {
  const document = fresh(FIRST_PRESET);
  const specifications = document.clearance.specifications.slice(0, 1);
  return { ...document, clearance: { ...document.clearance, specifications } };
};

/** The engine of a preset, with nothing read yet. */
export const fresh = ({ document }: Preset): Document => ({
  ...document,
  clearance: { ...document.clearance, readings: [] },
});
