// The mixture on paper.

import type { Document } from "../kernel";
import { shownOf, type OnPaper } from "../steps/paper";
import { AirFound } from "./air";
import { BalanceFound } from "./balance";
import { FloatFound } from "./float";
import { GasFound } from "./gas";
import { GaugeFound } from "./gauge";
import { IdleFound } from "./idle";
import { JetsFound } from "./jets";

export const ON_PAPER: OnPaper = {
  part: "mixture",
  title: "Mixture",
  dangers: () => [],
  parts: (report) => {
    const mixture = report.mixture!;
    return [
      ["Air around", mixture.air, <AirFound report={report} />],
      ["Vacuum gauge", mixture.gauge, <GaugeFound report={report} />],
      ["Fuel level", mixture.float, <FloatFound report={report} />],
      ["Jets", mixture.jets, <JetsFound report={report} />],
      ["Balance", mixture.balance, <BalanceFound report={report} />],
      ["Idle speed and mixture", mixture.idle, <IdleFound report={report} />],
      ["Exhaust gas", mixture.gas, <GasFound report={report} />],
    ];
  },
};

export const paperOf = (document: Document) => shownOf(document, ON_PAPER);
