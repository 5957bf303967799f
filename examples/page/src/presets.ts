// Invented engines to try the page with; each is taken by a tap and marked as a demonstration.

import inlineFour from "../../data/inline-four.json";
import uprightTwin from "../../data/upright-twin-warm.json";
import vEight from "../../data/v-eight-shims.json";
import vTwin from "../../data/v-twin.json";
import type { Document } from "./kernel";

/** Their documents; the build has taken out what was read. */
export const PRESETS = [inlineFour, uprightTwin, vTwin, vEight] as unknown as Document[];
