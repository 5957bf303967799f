// The ignition on paper.

import { asText, at } from "../draft";
import type { Document } from "../kernel";
import { shownOf, type OnPaper } from "../steps/paper";
import { AdvanceFound } from "./advance";
import { ContactsFound } from "./contacts";
import { ElectricsFound } from "./electrics";
import { EvennessFound } from "./evenness";
import { LeadsFound } from "./leads";
import { MagnetoFound } from "./magneto";
import { PointFound } from "./point";
import { TimingFound } from "./timing";

export const ON_PAPER: OnPaper = {
  part: "ignition",
  title: "Ignition",
  dangers: ({ ignition }) => ignition?.magneto?.cautions.map(({ text }) => text) ?? [],
  parts: (report, document) => {
    const ignition = report.ignition!;
    const rotor = asText(at(document, "/ignition/distributor/rotor"));
    return [
      ["Leads and distributor drive", ignition.leads, <LeadsFound report={report} />],
      ["Contacts", ignition.contacts, <ContactsFound report={report} />],
      ["Timing", ignition.timing, <TimingFound report={report} />],
      ["Advance", ignition.timing?.curve, <AdvanceFound report={report} />],
      ["Evenness", ignition.evenness, <EvennessFound report={report} rotor={rotor} />],
      ["Coil, condenser and plugs", ignition.electrics, <ElectricsFound report={report} />],
      ["Magnetos", ignition.magneto, <MagnetoFound report={report} />],
      ["Ignition point, every way", ignition.point, <PointFound report={report} />],
    ];
  },
};

export const paperOf = (document: Document) => shownOf(document, ON_PAPER);
