// Saying what the leaves said: a tap on the leaf, a step up or down, or typed.

import { useEffect, useState } from "preact/hooks";
import { Chips, Faults, problemsAt } from "./field";
import { NONE, tapped, typed, type Felt } from "./felt";
import type { Problem } from "./kernel";

type Side = "goes" | "refuses" | "drags";

interface Props {
  name: string;
  /** The leaves at hand, as marked. */
  leaves: readonly string[];
  /** Taken for a number that is typed without a unit, unless all leaves are marked in one. */
  unit: string;
  felt: Felt;
  change: (felt: Felt) => void;
  /** Where the reading stands in the document. */
  place: string;
  problems: readonly Problem[];
}

const WORDS: Record<Side, string> = { goes: "Goes in", refuses: "Does not go", drags: "Drags lightly" };

/** The unit that all leaves are marked in, if it is one. */
function unitOf(leaves: readonly string[]): string | undefined {
  const [unit, ...others] = new Set(leaves.map((leaf) => leaf.split(" ")[1]));
  return others.length === 0 ? unit : undefined;
}

/** One reading. */
export function LeafPicker({ name, leaves, unit: shown, felt, change, place, problems }: Props) {
  const unit = unitOf(leaves) ?? shown;
  // Which question is asked; only an answer changes the reading.
  const [how, ask] = useState(felt.how);
  useEffect(() => ask(felt.how), [felt.how]);
  const side = (which: Side, none?: string) => (
    <OneSide
      key={which}
      id={`${name}.${which}`}
      label={WORDS[which]}
      leaves={leaves}
      none={none}
      unit={unit}
      value={felt[which]}
      pick={(value) => change(tapped({ ...felt, how }, which, value))}
      problems={problemsAt(problems, `${place}/${which}`)}
    />
  );
  const inSides = ["goes", "refuses", "drags"].map((which) => `${place}/${which}`);
  const rest = problemsAt(problems, place).filter((p) => problemsAt([p], ...inSides).length === 0);
  return (
    <div class="reading">
      {how === "between" ? (
        <>
          {side("goes", "none")}
          {side("refuses", "all go")}
        </>
      ) : (
        side("drags")
      )}
      <Faults id={`${name}.faults`} problems={rest} />
      <div class="row">
        <button type="button" class="quiet" onClick={() => ask(how === "between" ? "drags" : "between")}>
          {how === "between" ? "One leaf drags lightly instead" : "One goes, one does not instead"}
        </button>
        <button
          type="button"
          class="quiet"
          onClick={() => change({ ...felt, goes: "", refuses: "", drags: "" })}
        >
          Clear
        </button>
      </div>
      {how === "drags" && <p class="hint">Spread of the feel: {felt.spread} (change it in Settings).</p>}
    </div>
  );
}

interface SideProps {
  id: string;
  label: string;
  leaves: readonly string[];
  none: string | undefined;
  unit: string;
  value: string;
  pick: (value: string) => void;
  problems: readonly Problem[];
}

function OneSide({ id, label, leaves, none, unit, value, pick, problems }: SideProps) {
  const shown = value === NONE ? (none ?? "") : value;
  const [text, setText] = useState(shown);
  useEffect(() => setText(shown), [shown]);
  const here = leaves.indexOf(value);
  const step = (by: number) => {
    const next = leaves[here < 0 ? (by > 0 ? 0 : leaves.length - 1) : here + by];
    if (next) pick(next);
  };
  const alike = leaves.every((leaf) => leaf.endsWith(` ${unit}`));
  const short = (leaf: string) => (alike ? leaf.slice(0, -unit.length - 1) : leaf);
  const choices: [string, string][] = leaves.map((leaf) => [leaf, short(leaf)]);
  if (none === "none") choices.unshift([NONE, none]);
  else if (none) choices.push([NONE, none]);
  const faults = `${id}.faults`;
  return (
    <section class="side" aria-label={label}>
      <div class="side-head">
        <label for={`${id}.typed`}>{label}</label>
        <div class="stepper">
          <button type="button" aria-label={`${label}: next thinner leaf`} onClick={() => step(-1)}>
            −
          </button>
          <input
            id={`${id}.typed`}
            type="text"
            inputMode="decimal"
            autoComplete="off"
            placeholder={unit}
            title="Tap a leaf, or type it. Leaves together: 0.10 + 0.05"
            value={text}
            aria-invalid={problems.length > 0}
            aria-describedby={faults}
            onInput={(event) => setText(event.currentTarget.value)}
            onChange={(event) => {
              const next = event.currentTarget.value.trim() && typed(event.currentTarget.value, unit);
              if (next !== value && event.currentTarget.value !== shown) pick(next);
            }}
          />
          <button type="button" aria-label={`${label}: next thicker leaf`} onClick={() => step(1)}>
            +
          </button>
        </div>
      </div>
      <Chips
        legend={<span class="sr">{`${label}, leaf${alike ? ` in ${unit}` : ""}`}</span>}
        name={`${id}.leaf`}
        value={value}
        choices={choices}
        pick={pick}
        describedBy={faults}
      />
      <Faults id={faults} problems={problems} />
    </section>
  );
}
