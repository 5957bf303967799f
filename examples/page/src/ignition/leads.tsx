// Leads and distributor drive: which tower carries which lead, where the rotor points, what fires when.

import { at } from "../draft";
import { GroupFaults, Line, Pick, type Sheet } from "../field";
import type { AnyReport } from "../kernel";
import { portion, sentence } from "../words";
import { BTDC, cylinders, named, Out, truths } from "./lists";
import { Advice, Texts } from "./told";
import type { CardProps } from "../steps/view";

const PLACE = "/ignition/leads";
const LOOKS = `${PLACE}/looks`;

/** Kinds of looks: what is added for one, and what its button says. */
const KINDS = {
  lead: ["where one lead goes", { tower_of: "", goes_to: "" }],
  rotor: ["where the rotor points", { at_tdc_of: "", points_to: "" }],
  spark: ["where a lamp on a lead flashes", { cylinder: "", comes: "", tdc_of: "" }],
  runs: ["what a cylinder does while it runs", { cylinder: "", does: "" }],
} as const;

type Kind = keyof typeof KINDS;
type Look = Partial<Record<Kind, unknown>>;

export function LeadsCard({ sheet, report }: CardProps) {
  const looks = (at(sheet.document, LOOKS) ?? []) as Look[];
  const add = (...more: Look[]) => sheet.write(LOOKS, [...looks, ...more]);
  const leads = named(sheet).map((tower_of) => ({ lead: { tower_of, goes_to: "" } }));
  return (
    <>
      <LeadsFound report={report} />
      <p class="hint">
        A tower is named by the cylinder it belongs to, counted along the firing order from that of the first,
        the way the rotor turns.
      </p>
      {looks.map((look, i) => (
        <LookForm key={i} sheet={sheet} looks={looks} look={look} i={i} />
      ))}
      <div class="row">
        {!looks.some(({ lead }) => lead) && (
          <button type="button" onClick={() => add(...leads)}>
            Say where every lead goes
          </button>
        )}
        {(Object.keys(KINDS) as Kind[]).map((kind) => (
          <button type="button" key={kind} onClick={() => add({ [kind]: { ...KINDS[kind][1] } })}>
            Say {KINDS[kind][0]}
          </button>
        ))}
      </div>
      <div class="fields narrow">
        <Pick
          sheet={sheet}
          at={`${PLACE}/delivery`}
          label="Sparks come by"
          choices={[
            ["", "not said"],
            ["distributor", "a rotor under a cap"],
            ["double_ended_coils", "coils with two ends"],
          ]}
        />
        <Line sheet={sheet} at={`${PLACE}/teeth`} label="Teeth of the distributor's gear" kind="number" />
      </div>
      <GroupFaults sheet={sheet} places={[PLACE, LOOKS]} />
    </>
  );
}

export function LeadsFound({ report }: { report: AnyReport | null }) {
  const found = report?.ignition?.leads;
  if (!found) return null;
  return (
    <section class="answer" aria-label="Leads: what was found">
      <p>
        <strong>{sentence(found.verdict_text)}</strong>
      </p>
      <Advice advice={found.advice} />
      <Texts
        texts={[
          ...found.explanations.map(({ probability, text }) => `${portion(probability)}: ${text}`),
          found.next && `Look next: ${found.next.text}`,
        ]}
      />
    </section>
  );
}

interface LookProps {
  sheet: Sheet;
  looks: readonly Look[];
  look: Look;
  i: number;
}

const SURE = [
  ["", "choose …"],
  ["true", "yes"],
  ["false", "no: by the mark alone"],
] as const;

function LookForm({ sheet, looks, look, i }: LookProps) {
  const place = `${LOOKS}/${i}`;
  const which = cylinders(sheet);
  const sure = (kind: Kind) => (
    <Pick
      sheet={truths(sheet)}
      at={`${place}/${kind}/stroke_checked`}
      label="On compression, made sure"
      choices={SURE}
    />
  );
  const name = `look ${i + 1}`;
  return (
    <div class="fields narrow part" role="group" aria-label={`Look ${i + 1}`}>
      {look.lead !== undefined && (
        <>
          <Pick
            sheet={sheet}
            at={`${place}/lead/tower_of`}
            label="The lead in the tower of"
            choices={which}
          />
          <Pick sheet={sheet} at={`${place}/lead/goes_to`} label="goes to cylinder" choices={which} />
        </>
      )}
      {look.rotor !== undefined && (
        <>
          <Pick sheet={sheet} at={`${place}/rotor/at_tdc_of`} label="At firing TDC of" choices={which} />
          {sure("rotor")}
          <Pick
            sheet={sheet}
            at={`${place}/rotor/points_to`}
            label="the rotor points to the tower of"
            choices={which}
          />
        </>
      )}
      {look.spark !== undefined && (
        <>
          <Pick sheet={sheet} at={`${place}/spark/cylinder`} label="Lamp on the lead of" choices={which} />
          <Line sheet={sheet} at={`${place}/spark/comes`} label="flashes at" unit={BTDC} />
          <Pick sheet={sheet} at={`${place}/spark/tdc_of`} label="of cylinder" choices={which} />
          {sure("spark")}
        </>
      )}
      {look.runs !== undefined && (
        <>
          <Pick sheet={sheet} at={`${place}/runs/cylinder`} label="Cylinder" choices={which} />
          <Pick
            sheet={sheet}
            at={`${place}/runs/does`}
            label="while it runs"
            choices={[
              ["", "choose …"],
              ["fires", "pulls"],
              ["spits_back", "spits back through the intake"],
              ["bangs_in_exhaust", "bangs in the exhaust"],
              ["dead", "does nothing"],
            ]}
          />
        </>
      )}
      <Out sheet={sheet} list={LOOKS} rows={looks} i={i} name={name} />
      <GroupFaults sheet={sheet} places={[place, ...Object.keys(look).map((kind) => `${place}/${kind}`)]} />
    </div>
  );
}
