// The condition on paper.

import type { Document } from "../kernel";
import { shownOf, type OnPaper } from "../steps/paper";
import { CompressionFound } from "./compression";
import { HeadFound } from "./head";
import { LeakFound } from "./leak";

export const ON_PAPER: OnPaper = {
  part: "condition",
  title: "Condition",
  dangers: () => [],
  parts: (report) => {
    const condition = report.condition!;
    return [
      ["Head bolts", condition.head, <HeadFound report={report} />],
      ["Compression", condition.compression, <CompressionFound report={report} />],
      ["Leak-down", condition.leak, <LeakFound report={report} />],
    ];
  },
};

export const paperOf = (document: Document) => shownOf(document, ON_PAPER);
