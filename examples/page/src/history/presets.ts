// An invented engine with nine years of services.

import four from "../../../data/inline-four-with-history.json";
import type { Document } from "../kernel";

export const PRESETS = [four as unknown as Document];
