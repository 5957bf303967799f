// Invented engines to start from, and an empty sheet.

import inlineFour from "../../data/inline-four.json";
import radialNine from "../../data/radial-nine.json";
import uprightTwin from "../../data/upright-twin-warm.json";
import vEight from "../../data/v-eight-shims.json";
import vTwin from "../../data/v-twin.json";
import type { Document } from "./kernel";

export interface Preset {
  id: string;
  document: Document;
}

const preset = (id: string, document: unknown): Preset => ({ id, document: document as Document });

export const FIRST_PRESET = preset("inline-four", inlineFour);

export const PRESETS: Preset[] = [
  FIRST_PRESET,
  preset("upright-twin-warm", uprightTwin),
  preset("v-twin", vTwin),
  preset("v-eight-shims", vEight),
  preset("radial-nine", radialNine),
];

/** The engine of a preset, with nothing read yet. */
export const fresh = (from: Preset): Document => ({ ...from.document, readings: [] });

/** A sheet on which everything is still to be filled in. */
export const blank = (): Document => ({
  lashwork: 1,
  title: "",
  engine: {
    cycle: "four_stroke",
    cylinders: [{ label: "1" }],
    firing_order: ["1"],
    firing: "even",
    rotation: { sense: "clockwise", seen_from: "free_end" },
    numbering: "free_end",
  },
  valves: { intake_per_cylinder: 1, exhaust_per_cylinder: 1 },
  specifications: [
    {
      id: "book",
      document: "",
      condition: "cold",
      intake: { set_to: "", set: { from: "", to: "" } },
      exhaust: { set_to: "", set: { from: "", to: "" } },
    },
  ],
  gauge: { leaves: [], stack_tolerance: "worst_case" },
  readings: [],
});
