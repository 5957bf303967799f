// The head's bolts: where they stand, the order and the torque, and what tightening does to the lash.

import { at } from "../draft";
import { GroupFaults, Line, Pick, type Sheet } from "../field";
import { Out } from "../ignition/lists";
import { Advice, Texts } from "../ignition/told";
import type { AnyReport } from "../kernel";
import type { CardProps } from "../steps/view";
import { sentence } from "../words";
import { TORQUE_UNITS } from "./units";

const PLACE = "/condition/head";
const BOLTS = `${PLACE}/bolts`;

export function HeadCard({ sheet, report, unit: length }: CardProps) {
  const unit = String(at(sheet.document, `${PLACE}/unit`) ?? "Nm");
  const bolts = (at(sheet.document, BOLTS) ?? []) as { name?: string }[];
  return (
    <>
      <HeadFound report={report} />
      <div class="fields narrow">
        <Pick
          sheet={sheet}
          at={`${PLACE}/bolts_are`}
          label="The bolts are"
          choices={[
            ["", "choose …"],
            ["not_stated", "not known"],
            ["settled", "as the book asks, not touched since the valves were read"],
            ["due", "to be tightened"],
            ["tightened_since", "tightened after the valves were read"],
          ]}
        />
        <Pick
          sheet={sheet}
          at={`${PLACE}/unit`}
          label="Torque is said in"
          choices={[["", "Nm unless chosen"], ...TORQUE_UNITS]}
        />
        <Line sheet={sheet} at={`${PLACE}/torque`} label="Book: torque" unit={unit} />
        <Line
          sheet={sheet}
          at={`${PLACE}/also_printed`}
          label="The same, printed otherwise"
          kind="text"
          placeholder="50 lbf ft"
        />
      </div>
      <GroupFaults sheet={sheet} places={[PLACE]} />
      <details class="small">
        <summary>The wrench, and what is between it and the bolt</summary>
        <div class="fields narrow">
          <Line sheet={sheet} at={`${PLACE}/wrench/scale_end`} label="End of its scale" unit={unit} />
          <Line
            sheet={sheet}
            at={`${PLACE}/wrench/class_percent`}
            label="It may be off, in %"
            kind="number"
          />
          <Line
            sheet={sheet}
            at={`${PLACE}/adapter/wrench_length`}
            label="Wrench: drive to middle of the grip"
            unit={length}
          />
          <Line sheet={sheet} at={`${PLACE}/adapter/length`} label="Adapter: drive to bolt" unit={length} />
          <Line
            sheet={sheet}
            at={`${PLACE}/adapter/turned`}
            label="Adapter turned out of line"
            unit="deg"
            hint="0 straight on, 90 square."
          />
        </div>
        <GroupFaults sheet={sheet} places={[`${PLACE}/wrench`, `${PLACE}/adapter`]} />
      </details>
      <details class="small">
        <summary>The bolts, for the force along each</summary>
        <div class="fields narrow">
          <Line sheet={sheet} at={`${PLACE}/bolt/diameter`} label="Bolt, across" unit={length} />
          <Line sheet={sheet} at={`${PLACE}/bolt/nut_factor`} label="Nut factor, as 0.2" kind="number" />
          <Pick
            sheet={sheet}
            at={`${PLACE}/bolt/tightening`}
            label="Tightened by"
            choices={[
              ["", "choose …"],
              ["yield_or_angle", "an angle, or to yield"],
              ["elongation", "its elongation"],
              ["torque_tuned", "a torque found on this joint"],
              ["torque_estimated", "a torque from a friction estimated"],
              ["oiled_torque", "a torque on oiled threads"],
              ["dry_torque", "a torque on dry threads"],
              ["power_driver", "a power driver"],
            ]}
          />
        </div>
        <GroupFaults sheet={sheet} places={[`${PLACE}/bolt`]} />
      </details>
      <details class="small">
        <summary>How far the head goes down</summary>
        <div class="fields narrow">
          <Line sheet={sheet} at={`${PLACE}/settling/down`} label="Head goes down by" unit={length} />
          <Line
            sheet={sheet}
            at={`${PLACE}/settling/pushrod_rocker_ratio`}
            label="Rocker ratio, with pushrods from the block"
            kind="number"
          />
        </div>
        <GroupFaults sheet={sheet} places={[`${PLACE}/settling`]} />
      </details>
      <details class="small">
        <summary>Where each bolt stands, for the order ({bolts.length})</summary>
        <p class="hint">
          From any corner of the head. The maker's order, where there is one, goes before it.
        </p>
        <Names sheet={sheet} at={`${PLACE}/order`} label="Maker's order, by name" />
        {bolts.map(({ name }, i) => (
          <div class="fields narrow part" key={i}>
            <Line sheet={sheet} at={`${BOLTS}/${i}/name`} label={`Bolt ${i + 1}: name`} kind="text" />
            <Line sheet={sheet} at={`${BOLTS}/${i}/along`} label="Along the head" unit={length} />
            <Line sheet={sheet} at={`${BOLTS}/${i}/across`} label="Across it" unit={length} />
            <Out sheet={sheet} list={BOLTS} rows={bolts} i={i} name={`bolt ${name || i + 1}`} />
          </div>
        ))}
        <GroupFaults sheet={sheet} places={[BOLTS, ...bolts.map((_, i) => `${BOLTS}/${i}`)]} />
        <button
          type="button"
          onClick={() =>
            sheet.write(BOLTS, [...bolts, { name: `${bolts.length + 1}`, along: "", across: "" }])
          }
        >
          Add a bolt
        </button>
      </details>
    </>
  );
}

/** Names with blanks between them; a document has them as a list. */
function Names({ sheet, at: place, label }: { sheet: Sheet; at: string; label: string }) {
  const own: Sheet = {
    ...sheet,
    document: { list: ((at(sheet.document, place) ?? []) as string[]).join(" ") },
    problems: sheet.problems
      .filter((problem) => problem.place === place)
      .map((problem) => ({ ...problem, place: "/list" })),
    form: place,
    write: (_, typed) => {
      const names = String(typed ?? "").split(/[\s,;]+/);
      const list = names.filter(Boolean);
      sheet.write(place, list.length > 0 ? list : undefined);
    },
  };
  return <Line sheet={own} at="/list" label={label} kind="text" />;
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
