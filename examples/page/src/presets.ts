// Invented engines to try the page with; each is taken by a tap and marked as a demonstration.

import inlineFour from "../../data/inline-four.json";
import uprightTwin from "../../data/upright-twin-warm.json";
import vEight from "../../data/v-eight-shims.json";
import vTwin from "../../data/v-twin.json";
import { unread } from "./blank";
import type { Document } from "./kernel";

/** Their documents, with nothing read yet. */
export const PRESETS: Document[] = [inlineFour, uprightTwin, vTwin, vEight].map((one) =>
  unread(one as unknown as Document),
);
