// Leads and distributor drive: which tower carries which lead, where the rotor points, what fires when.

import { at } from "../draft";
import { GroupFaults, type Sheet } from "../field";
import { Fields, Out, type Asked, type Choices } from "../fields";
import type { AnyReport } from "../kernel";
import { portion, sentence } from "../words";
import { BTDC, cylinders, named } from "./lists";
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
      <Fields
        sheet={sheet}
        at={PLACE}
        of={[
          [
            "delivery",
            "Sparks come by",
            { "": "not said", distributor: "a rotor under a cap", double_ended_coils: "coils with two ends" },
          ],
          ["teeth", "Teeth of the distributor's gear", "number"],
        ]}
      />
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

/** What is asked for each kind of look; `which` are the cylinders. */
function askedOf(kind: Kind, which: Choices): Asked[] {
  const sure: Asked = [
    `${kind}/stroke_checked`,
    "On compression, made sure",
    { "": "choose …", true: "yes", false: "no: by the mark alone" },
  ];
  const asked: { [kind in Kind]: Asked[] } = {
    lead: [
      ["lead/tower_of", "The lead in the tower of", which],
      ["lead/goes_to", "goes to cylinder", which],
    ],
    rotor: [
      ["rotor/at_tdc_of", "At firing TDC of", which],
      sure,
      ["rotor/points_to", "the rotor points to the tower of", which],
    ],
    spark: [
      ["spark/cylinder", "Lamp on the lead of", which],
      ["spark/comes", "flashes at", BTDC],
      ["spark/tdc_of", "of cylinder", which],
      sure,
    ],
    runs: [
      ["runs/cylinder", "Cylinder", which],
      ["runs/does", "while it runs", DOES],
    ],
  };
  return asked[kind];
}

const DOES = {
  "": "choose …",
  fires: "pulls",
  spits_back: "spits back through the intake",
  bangs_in_exhaust: "bangs in the exhaust",
  dead: "does nothing",
};

function LookForm({ sheet, looks, look, i }: LookProps) {
  const place = `${LOOKS}/${i}`;
  const kinds = (Object.keys(KINDS) as Kind[]).filter((kind) => look[kind] !== undefined);
  const which = cylinders(sheet);
  return (
    <div class="part" role="group" aria-label={`Look ${i + 1}`}>
      <Fields sheet={sheet} at={place} of={kinds.flatMap((kind) => askedOf(kind, which))} />
      <Out sheet={sheet} list={LOOKS} rows={looks} i={i} name={`look ${i + 1}`} />
      <GroupFaults sheet={sheet} places={[place, ...kinds.map((kind) => `${place}/${kind}`)]} />
    </div>
  );
}
