// Invented engines to start from, and an empty sheet.

import radialNine from "../../data/radial-nine.json";
import uprightTwin from "../../data/upright-twin-warm.json";
import vEight from "../../data/v-eight-shims.json";
import vTwin from "../../data/v-twin.json";
import { FIRST_PRESET, preset, type Preset } from "./first-preset";
import type { Document } from "./kernel";

export const PRESETS: Preset[] = [
  FIRST_PRESET,
  preset("upright-twin-warm", uprightTwin),
  preset("v-twin", vTwin),
  preset("v-eight-shims", vEight),
  preset("radial-nine", radialNine),
];

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
  clearance: {
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
  },
});
