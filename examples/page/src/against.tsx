// Engine, bands and screw that a quick check is held against; they are remembered between checks.

import { faultsOfBoth } from "./check";
import { asText, CLEARANCE, put } from "./draft";
import type { Sheet } from "./field";
import { fresh } from "./first-preset";
import type { Document } from "./kernel";
import { LimitsForm, ScrewForm } from "./limits-form";
import { PRESETS } from "./presets";
import { changeQuick, type State } from "./state";
import { answer } from "./whole";

/** The document with those of its books that may apply to its engine: one valve alone has no engine number. */
function ofThisEngine(document: Document): Document {
  const said = answer(document).report?.clearance.specifications ?? [];
  const others = said.filter((book) => book.applicability === "does_not_apply").map((book) => book.id);
  const specifications = document.clearance.specifications.filter((book) => !others.includes(book.id));
  return { ...document, clearance: { ...document.clearance, specifications } };
}

export function Against({ state }: { state: State }) {
  const { quick, job, settings } = state;
  const sheet: Sheet = {
    document: quick.base.clearance,
    problems: faultsOfBoth(quick, settings),
    write: (pointer, value) => changeQuick({ base: put(quick.base, CLEARANCE + pointer, value) }),
  };
  const choices = PRESETS.map((preset) => [preset.id, fresh(preset)] as const);
  const take = (id: string) => {
    const found = id === "job" ? job?.document : choices.find(([known]) => known === id)?.[1];
    if (found) changeQuick({ base: ofThisEngine(found), shim: "" });
  };
  return (
    <>
      <div class="field">
        <label for="quick.base">Take engine, bands and screw from</label>
        <select id="quick.base" value="" onChange={(event) => take(event.currentTarget.value)}>
          <option value="">choose …</option>
          {job && <option value="job">the job that is open: {asText(job.document.title)}</option>}
          {choices.map(([id, document]) => (
            <option key={id} value={id}>
              {document.title}
            </option>
          ))}
        </select>
      </div>
      {quick.base.clearance.specifications.map((_, i) => (
        <LimitsForm key={i} sheet={sheet} place={`/specifications/${i}`} unit={settings.unit} />
      ))}
      <ScrewForm sheet={sheet} />
    </>
  );
}
