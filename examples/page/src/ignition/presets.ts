// Invented engines to try the second step with, their ignition read; each has an empty sheet for its valves.

import battery from "../../../data/opposed-four-ignition.json";
import magnetos from "../../../data/opposed-four-magnetos.json";
import { blank } from "../blank";
import { CLEARANCE, put } from "../draft";
import type { Document } from "../kernel";

export const PRESETS = [battery, magnetos].map(
  (document) => put(document, CLEARANCE, blank().clearance) as unknown as Document,
);
