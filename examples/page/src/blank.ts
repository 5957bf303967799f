// A sheet on which everything is still to be filled in: nothing is taken that nobody said.

import type { Document } from "./kernel";

/** One book with the figures that have to be asked for; the bands that not every book prints are left out. */
export const emptyBook = (id: string) => ({
  id,
  document: "",
  condition: "cold" as const,
  intake: { set_to: "" },
  exhaust: { set_to: "" },
});

export const blank = () =>
  ({
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
      specifications: [emptyBook("book")],
      gauge: { leaves: [], stack_tolerance: "worst_case" },
      readings: [],
    },
  }) as unknown as Document;
