// An invented engine to try the third step with, its mixture read; it has an empty sheet for its valves.

import four from "../../../data/four-carburettors-at-altitude.json";
import { blank } from "../blank";
import { CLEARANCE, put } from "../draft";
import type { Document } from "../kernel";

export const PRESETS = [put(four, CLEARANCE, blank().clearance) as unknown as Document];
