// An invented engine to try the condition with, read; it has an empty sheet for its valves.

import four from "../../../data/inline-four-condition.json";
import { blank } from "../blank";
import { CLEARANCE, put } from "../draft";
import type { Document } from "../kernel";

export const PRESETS = [put(four, CLEARANCE, blank().clearance) as unknown as Document];
