// Engine, bands and screw that a quick check is held against; they are remembered between checks.

import { faultsOfBoth } from "./check";
import { asText, at, CLEARANCE, put } from "./draft";
import { untouched } from "./felt";
import type { Sheet } from "./field";
import { blank } from "./blank";
import type { Document } from "./kernel";
import { LimitsForm, ScrewForm } from "./limits-form";
import { parted } from "./needed";
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
    problems: parted(quick.base.clearance, faultsOfBoth(quick, settings)).wrong,
    write: (pointer, value) => changeQuick({ base: put(quick.base, CLEARANCE + pointer, value) }),
  };
  const take = (id: string) => {
    // What was felt belongs to the book it was felt for.
    const change = { shim: "", valve: "", felt: untouched(settings.spread) } as const;
    if (id === "own") return changeQuick({ base: blank(), demo: false, ...change });
    const preset = PRESETS[Number(id)];
    const own = preset && put(preset, `${CLEARANCE}/gauge`, settings.gauge);
    const found = id === "job" ? job?.document : own;
    if (!found) return;
    const cold = at(found.clearance, "/metal/temperature") === undefined;
    changeQuick({ base: ofThisEngine(found), demo: id === "job" ? job!.demo : true, cold, ...change });
  };
  return (
    <>
      <div class="field">
        <label for="quick.base">Take book and adjuster from</label>
        <select id="quick.base" value="" onChange={(event) => take(event.currentTarget.value)}>
          <option value="">choose …</option>
          {job && <option value="job">the job that is open: {asText(job.document.title)}</option>}
          <option value="own">my own figures, begun anew</option>
          {PRESETS.map((document, i) => (
            <option key={i} value={i}>
              DEMO: {document.title}
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
