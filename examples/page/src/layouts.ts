// The commonest layouts, each with the firing orders that are usual for it: offered, never taken unasked.
// The orders are common practice, no source; the kernel checks whatever is tapped or typed.

import type { Document } from "./kernel";

export interface Layout {
  name: string;
  /** Where its cylinders stand in the picture, in a box of 48 by 32. */
  picture: string;
  cylinders: number;
  orders: string[];
  firing: Document["engine"]["firing"];
  /** Crank degrees between firings where they are not alike. */
  intervals?: string[];
  /** Angles between the banks to choose from, where the firing follows from it. */
  angles?: string[];
}

const row = (xs: number[], y = 16): string => xs.map((x) => `M${x - 4} ${y - 8}h8v16h-8z`).join("");
const lying = (xs: number[]): string => xs.map((x) => `M${x - 6} 6h12v8h-12zM${x - 6} 18h12v8h-12z`).join("");

export const LAYOUTS: Record<string, Layout> = {
  single: { name: "Single", picture: row([24]), cylinders: 1, orders: ["1"], firing: "even" },
  twin360: { name: "Twin 360°", picture: row([18, 30]), cylinders: 2, orders: ["1 2"], firing: "even" },
  twin180: {
    name: "Twin 180°",
    picture: "M14 4h8v16h-8zM26 12h8v16h-8z",
    cylinders: 2,
    orders: ["1 2"],
    firing: "listed",
    intervals: ["180 deg", "540 deg"],
  },
  vtwin: {
    name: "V-twin",
    picture: "M20 28L6 12L13 6L24 19zM28 28L42 12L35 6L24 19z",
    cylinders: 2,
    orders: ["1 2"],
    firing: "from_geometry",
    angles: ["45 deg", "60 deg", "90 deg"],
  },
  flattwin: {
    name: "Flat twin",
    picture: "M4 12h16v8h-16zM28 12h16v8h-16z",
    cylinders: 2,
    orders: ["1 2"],
    firing: "even",
  },
  three: {
    name: "Three",
    picture: row([12, 24, 36]),
    cylinders: 3,
    orders: ["1 2 3", "1 3 2"],
    firing: "even",
  },
  four: {
    name: "Four",
    picture: row([9, 19, 29, 39]),
    cylinders: 4,
    orders: ["1 3 4 2", "1 2 4 3"],
    firing: "even",
  },
  six: {
    name: "Six",
    picture: "M2 9h6v14h-6zM10 9h6v14h-6zM18 9h6v14h-6zM26 9h6v14h-6zM34 9h6v14h-6zM42 9h5v14h-5z",
    cylinders: 6,
    orders: ["1 5 3 6 2 4", "1 4 2 6 3 5"],
    firing: "even",
  },
  flatfour: {
    name: "Flat four",
    picture: lying([15, 33]),
    cylinders: 4,
    orders: ["1 4 3 2", "1 3 2 4"],
    firing: "even",
  },
  veight: {
    name: "V-eight",
    picture: lying([6, 18, 30, 42]),
    cylinders: 8,
    orders: ["1 8 4 3 6 5 7 2", "1 5 4 2 6 3 7 8", "1 3 7 2 6 5 4 8"],
    firing: "even",
  },
};

/** The engine of a document in another layout; the order is left open where there are several. */
export function engineOf(layout: Layout, engine: Document["engine"]): Document["engine"] {
  const { intervals: _, ...rest } = engine;
  const [only, ...others] = layout.orders;
  const labels = [...Array(layout.cylinders).keys()].map((i) => ({ label: String(i + 1) }));
  return {
    ...rest,
    cylinders: layout.angles
      ? labels.map((one, i) => ({ ...one, bank: i === 0 ? "0 deg" : "", crankpin: "0 deg" }))
      : labels,
    firing_order: others.length === 0 ? only!.split(" ") : [],
    firing: layout.firing,
    ...(layout.intervals && { intervals: layout.intervals }),
  };
}
