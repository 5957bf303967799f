// What may be the matter by all that was found: each cause with what speaks for it, and where to look next.

import { GroupFaults } from "../field";
import { Fields, Fold } from "../fields";
import { asTheyStand } from "../ignition/lists";
import { Texts } from "../ignition/told";
import { sheetOf } from "../job-sheet";
import type { AnyReport, CausesReport } from "../kernel";
import { keyed } from "../keyed";
import { Lines } from "../lines";
import { PRESETS } from "../condition/presets";
import type { Job, State } from "../state";
import { causesOf } from "../steps/ask";
import { Alone, Frame } from "../steps/frame";
import { portion, sentence } from "../words";

type CauseReport = CausesReport["causes"][number];

const TITLE = "Causes";
const PLUGS = "/causes/plugs";

const SEEN = {
  "": "not seen",
  normal: "brown or grey, dry",
  sooty: "black, dry",
  white: "white or blistered",
  oily: "oily",
  wet: "wet with fuel or water",
};

export const CausesView = ({ state: { job } }: { state: State }) =>
  job ? <OfJob job={job} /> : <Alone title={TITLE} of="Causes are those of" engines={PRESETS} />;

function OfJob({ job }: { job: Job }) {
  const answer = causesOf(job.document);
  const whole = sheetOf(job, { problems: answer.problems, assumptions: [] });
  return (
    <Frame job={job} title={TITLE} answer={answer}>
      <section class="card" aria-label="What may be the matter">
        <h2>What may be the matter</h2>
        <Found report={answer.report} />
      </section>
      <section class="card" aria-label="Plugs">
        <h2>Plugs, as they look</h2>
        {asTheyStand(whole).map((cylinder) => {
          const { sheet, place } = keyed(whole, PLUGS, { cylinder });
          return (
            <Fields key={cylinder} sheet={sheet} at={place} of={[["seen", `Plug of ${cylinder}`, SEEN]]} />
          );
        })}
        <GroupFaults sheet={whole} places={[PLUGS, "/causes"]} />
      </section>
    </Frame>
  );
}

function Found({ report }: { report: AnyReport | null }) {
  const found = report?.causes;
  if (!found) return null;
  const { nothing, passing, something_else, several } = found;
  return (
    <>
      <p class="do">{sentence(found.verdict_text)}</p>
      <p class="notice">{sentence(found.trust_text)}</p>
      {found.next.length > 0 && (
        <>
          <h3>What to measure next, most told for a minute of work first</h3>
          <ol>
            {found.next.map(({ text }) => (
              <li key={text}>{sentence(text)}</li>
            ))}
          </ol>
        </>
      )}
      {found.causes.map((one) => (
        <Cause key={one.cause} found={one} />
      ))}
      <p class="facts-line">
        Nothing is the matter: {portion(nothing)}, of that a leak for the moment {portion(passing)}; something
        that is not weighed: {portion(something_else)}; two or more at once: {portion(several)}.
      </p>
      <Texts texts={found.remarks} />
      {found.not_looked_at_text && <p>Not looked at: {found.not_looked_at_text}.</p>}
    </>
  );
}

/** A cause; what says hardly anything of it is folded away. */
function Cause({ found: { text, probability, probability_text, places, speaks } }: { found: CauseReport }) {
  const silent = speaks.filter(({ strength }) => strength === "nothing");
  return (
    <section class="answer" aria-label={text}>
      <h3>{sentence(text)}</h3>
      <p>
        <strong>{probability_text}</strong>; as reckoned {portion(probability)}
      </p>
      <Lines look="plain" lines={places} />
      <p>What speaks for it and against it:</p>
      <Lines lines={speaks.filter((one) => !silent.includes(one))} />
      {silent.length > 0 && (
        <Fold title="What says hardly anything">
          <Lines lines={silent} />
        </Fold>
      )}
    </section>
  );
}
