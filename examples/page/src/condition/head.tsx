// The head's bolts: where they stand, the order and the torque, and what tightening does to the lash.

import { at } from "../draft";
import { GroupFaults, Line, type Sheet } from "../field";
import { Fields, Fold, Rows, standIn } from "../fields";
import { Advice, Texts } from "../ignition/told";
import type { AnyReport } from "../kernel";
import type { CardProps } from "../steps/view";
import { sentence } from "../words";
import { TORQUE_UNITS } from "./units";

const PLACE = "/condition/head";
const HEADS = "/condition/heads";
const BOLTS = `${PLACE}/bolts`;

export function HeadCard({ sheet, report, unit: length }: CardProps) {
  const unit = String(at(sheet.document, `${PLACE}/unit`) ?? "Nm");
  const bolts = (at(sheet.document, BOLTS) ?? []) as { name?: string }[];
  return (
    <>
      <HeadFound report={report} />
      <Fields
        sheet={sheet}
        at={PLACE}
        of={[
          [
            "bolts_are",
            "The bolts are",
            {
              "": "choose …",
              not_stated: "not known",
              settled: "as the book asks, not touched since the valves were read",
              due: "to be tightened",
              tightened_since: "tightened after the valves were read",
            },
          ],
          ["unit", "Torque is said in", [["", "Nm unless chosen"], ...TORQUE_UNITS]],
          ["torque", "Book: torque", unit],
          ["also_printed", "The same, printed otherwise", "text", "", "50 lbf ft"],
        ]}
      />
      <GroupFaults sheet={sheet} places={[PLACE]} />
      <Fold
        title="The wrench, and what is between it and the bolt"
        sheet={sheet}
        at={PLACE}
        of={[
          ["wrench/scale_end", "End of its scale", unit],
          ["wrench/class_percent", "It may be off, in %", "number"],
          ["adapter/wrench_length", "Wrench: drive to middle of the grip", length],
          ["adapter/length", "Adapter: drive to bolt", length],
          ["adapter/turned", "Adapter turned out of line", "deg", "0 straight on, 90 square."],
        ]}
        faults={[`${PLACE}/wrench`, `${PLACE}/adapter`]}
      />
      <Fold
        title="The bolts, for the force along each"
        sheet={sheet}
        at={`${PLACE}/bolt`}
        of={[
          ["diameter", "Bolt, across", length],
          ["nut_factor", "Nut factor, as 0.2", "number"],
          [
            "tightening",
            "Tightened by",
            {
              "": "choose …",
              yield_or_angle: "an angle, or to yield",
              elongation: "its elongation",
              torque_tuned: "a torque found on this joint",
              torque_estimated: "a torque from a friction estimated",
              oiled_torque: "a torque on oiled threads",
              dry_torque: "a torque on dry threads",
              power_driver: "a power driver",
            },
          ],
        ]}
        faults={[`${PLACE}/bolt`]}
      />
      <Fold
        title="How far the head goes down"
        sheet={sheet}
        at={`${PLACE}/settling`}
        of={[
          ["down", "Head goes down by", length],
          ["pushrod_rocker_ratio", "Rocker ratio, with pushrods from the block", "number"],
        ]}
        faults={[`${PLACE}/settling`]}
      />
      <Fold
        title={`Where each bolt stands, for the order (${bolts.length})`}
        hint="From any corner of the head. The maker's order, where there is one, goes before it."
      >
        <Names sheet={sheet} at={`${PLACE}/order`} label="Maker's order, by name" />
        <Rows
          sheet={sheet}
          list={BOLTS}
          item={(number) => `bolt ${bolts[number - 1]?.name || number}`}
          of={(number) => [
            ["name", `Bolt ${number}: name`, "text"],
            ["along", "Along the head", length],
            ["across", "Across it", length],
            ["group", "Group, from 0: one after the other", "number"],
          ]}
          add={[["Add a bolt", { name: `${bolts.length + 1}`, along: "", across: "" }]]}
        />
      </Fold>
    </>
  );
}

/** Cylinders under each head: a list of lists. */
export function Heads({ sheet }: { sheet: Sheet }) {
  const said = ((at(sheet.document, HEADS) ?? []) as string[][]).map((row) => row.join(" ")).join(", ");
  const write = (typed: unknown) => {
    const rows = String(typed ?? "")
      .split(/[,;]/)
      .map((row) => row.split(/\s+/).filter(Boolean));
    const list = rows.filter((row) => row.length > 0);
    sheet.write(HEADS, list.length > 0 ? list : undefined);
  };
  return (
    <Line
      sheet={standIn(sheet, HEADS, "list", said, write, [HEADS])}
      at="/list"
      label="Cylinders side by side under each head"
      kind="text"
      placeholder="1 2, 3 4"
      hint="Empty: by the layout of the engine."
    />
  );
}

/** Names with blanks between them; a document has them as a list. */
function Names({ sheet, at: place, label }: { sheet: Sheet; at: string; label: string }) {
  const said = ((at(sheet.document, place) ?? []) as string[]).join(" ");
  const write = (typed: unknown) => {
    const names = String(typed ?? "").split(/[\s,;]+/);
    const list = names.filter(Boolean);
    sheet.write(place, list.length > 0 ? list : undefined);
  };
  return (
    <Line sheet={standIn(sheet, place, "list", said, write, [place])} at="/list" label={label} kind="text" />
  );
}

export function HeadFound({ report }: { report: AnyReport | null }) {
  const found = report?.condition?.head;
  if (!found) return null;
  return (
    <section class="answer" aria-label="Head bolts: what was found">
      <p>
        <strong>{sentence(found.verdict_text)}</strong>
      </p>
      <Advice advice={found.advice} />
      <Texts texts={[...found.order_faults, found.order_text, ...found.torque_texts, found.lash_text]} />
    </section>
  );
}
