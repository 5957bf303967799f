// Engine, bands and screw that a quick check is held against; they are remembered between checks.

import { asText, put } from "./draft";
import type { Sheet } from "./field";
import { fresh } from "./first-preset";
import { answer } from "./kernel";
import { LimitsForm, ScrewForm } from "./limits-form";
import { PRESETS } from "./presets";
import { quickDocument } from "./quick";
import { changeQuick, type State } from "./state";

export function Against({ state }: { state: State }) {
  const { quick, job, settings } = state;
  const sheet: Sheet = {
    document: quick.base,
    problems: answer(quickDocument(quick, settings)).problems,
    write: (pointer, value) => changeQuick({ base: put(quick.base, pointer, value) }),
  };
  const choices = PRESETS.map((preset) => [preset.id, fresh(preset)] as const);
  const take = (id: string) => {
    const found = id === "job" ? job?.document : choices.find(([known]) => known === id)?.[1];
    if (found) changeQuick({ base: found, shim: "" });
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
      {(quick.base.specifications ?? []).map((_, i) => (
        <LimitsForm key={i} sheet={sheet} place={`/specifications/${i}`} unit={settings.unit} />
      ))}
      <ScrewForm sheet={sheet} />
    </>
  );
}
