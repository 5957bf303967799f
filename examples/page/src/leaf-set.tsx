// The leaves at hand: on and off by a tap, or typed. One set, wherever it is changed; an open job follows it.

import { asText, CLEARANCE, put } from "./draft";
import { Faults, problemsAt } from "./field";
import { bare, typedSet } from "./felt";
import type { Problem } from "./kernel";
import { changeSettings, LEAVES, writeJob, type State } from "./state";
import { useTyped } from "./typed";
import { unitName } from "./words";

interface Props {
  state: State;
  problems: readonly Problem[];
}

export function LeafSet({ state, problems }: Props) {
  const { settings, job } = state;
  const { unit, gauge } = settings;
  const set = gauge.leaves.map(asText);
  const value = set.join("; ");
  const [text, setText] = useTyped(value);
  const write = (leaves: string[]) => {
    const next = { ...gauge, leaves };
    changeSettings({ gauge: next });
    if (job) writeJob(put(job.document, `${CLEARANCE}/gauge`, next), "leaves");
  };
  const usual = LEAVES[unit];
  const own = set.filter((leaf) => !usual.includes(leaf));
  const toggle = (leaf: string) => {
    if (set.includes(leaf)) return write(set.filter((one) => one !== leaf));
    // Those of the usual set stay in its order, thin to thick; the owner's own behind them.
    write([...usual.filter((one) => one === leaf || set.includes(one)), ...own]);
  };
  const faults = problemsAt(problems, "/gauge/leaves");
  return (
    <>
      <fieldset class="chips toggles">
        <legend class="sr">Leaves in my set, in {unitName(unit)}</legend>
        <div class="chip-grid">
          {[...usual, ...own].map((leaf) => (
            <span class="chip" key={leaf}>
              <input
                type="checkbox"
                id={`leaf.${leaf}`}
                checked={set.includes(leaf)}
                onChange={() => toggle(leaf)}
              />
              <label for={`leaf.${leaf}`}>{bare(leaf)}</label>
            </span>
          ))}
        </div>
      </fieldset>
      <div class="field">
        <label for="leaves.typed">or all of them typed, thin to thick</label>
        <textarea
          id="leaves.typed"
          rows={3}
          spellcheck={false}
          value={text}
          aria-invalid={faults.length > 0}
          aria-describedby="leaves.typed.faults"
          onInput={(event) => setText(event.currentTarget.value)}
          onChange={(event) => write(typedSet(event.currentTarget.value, unit))}
        />
        <Faults id="leaves.typed.faults" problems={faults} />
      </div>
    </>
  );
}
