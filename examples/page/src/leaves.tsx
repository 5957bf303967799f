// Saying what the leaves said: one grid of leaves, filled side after side; what is not in the set is typed.

import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { Chips, Faults, problemsAt, type Choice } from "./field";
import { bare, NONE, tapped, typed, type Felt, type Side } from "./felt";
import type { Problem } from "./kernel";
import { useTyped } from "./typed";
import { unitName } from "./words";

interface Props {
  name: string;
  /** The valve, for those who hear the page. */
  valve: string;
  /** The leaves at hand, as marked. */
  leaves: readonly string[];
  /** Taken for a number that is typed without a unit, unless all leaves are marked in one. */
  unit: string;
  felt: Felt;
  change: (felt: Felt) => void;
  /** Where the reading stands in the document. */
  place: string;
  problems: readonly Problem[];
  /** The leaf to try next. */
  next?: string;
}

const WORDS: Record<Side, string> = { goes: "Goes in", refuses: "Does not go", drags: "Light drag" };

/** The chip that is not a leaf, on the side it belongs to. */
const NO_LEAF: Record<Side, string> = { goes: "no leaf goes", refuses: "every leaf goes", drags: "" };

/** The unit that all leaves are marked in, if it is one. */
function unitOf(leaves: readonly string[]): string | undefined {
  const [unit, ...others] = new Set(leaves.map((leaf) => leaf.split(" ")[1]));
  return others.length === 0 ? unit : undefined;
}

/** The side that waits for an answer. */
function sideOf({ how, goes, refuses }: Felt): Side {
  if (how === "drags") return "drags";
  if (goes === NONE) return "goes";
  return goes || refuses === NONE ? "refuses" : "goes";
}

/** One reading. */
export function LeafPicker(props: Props) {
  const { name, valve, leaves, felt, change, place, problems, next } = props;
  const unit = unitOf(leaves) ?? props.unit;
  const [side, ask] = useState<Side>(() => sideOf(felt));
  const [typing, setTyping] = useState(false);
  // Arrow keys choose every leaf on their way: only a finger is taken on to the other side.
  const byFinger = useRef(false);
  // Before the next paint: a side that is turned to the moment it is there stays.
  useLayoutEffect(() => {
    if (felt.goes === "" && felt.refuses === "" && felt.drags === "") ask("goes");
    else if (felt.how === "drags") ask("drags");
  }, [felt.how, felt.goes, felt.refuses, felt.drags]);
  const turnTo = (to: Side) => {
    ask(to);
    setTyping(false);
  };
  const pick = (value: string) => {
    const after = tapped(felt, side, value, leaves);
    change(after);
    if (!byFinger.current || value === NONE) return;
    if (side === "goes" && !after.refuses) turnTo("refuses");
    if (side === "refuses" && !after.goes) turnTo("goes");
  };
  const value = felt[side];
  const alike = leaves.every((leaf) => leaf.endsWith(` ${unit}`));
  const words = (leaf: string) => (alike ? bare(leaf) : leaf);
  const markOf = (leaf: string): Choice<string>[2] => {
    if (side !== "drags" && leaf === felt.goes && side !== "goes") return { word: "goes", look: "other" };
    if (side !== "drags" && leaf === felt.refuses && side !== "refuses")
      return { word: "not", look: "other" };
    return next && bare(leaf) === bare(next) ? { word: "try", look: "next" } : undefined;
  };
  const choices: Choice<string>[] = leaves.map((leaf) => [leaf, words(leaf), markOf(leaf)]);
  if (NO_LEAF[side]) choices.push([NONE, NO_LEAF[side]]);
  const own = value !== "" && value !== NONE && !leaves.includes(value);
  const sides: Side[] = felt.how === "drags" || side === "drags" ? ["drags"] : ["goes", "refuses"];
  const here = problemsAt(problems, `${place}/${side}`);
  const rest = problemsAt(problems, place).filter((problem) => !here.includes(problem));
  const faults = `${name}.faults`;
  return (
    <div
      class="reading"
      onPointerDown={() => (byFinger.current = true)}
      onKeyDown={() => (byFinger.current = false)}
    >
      <div class="sides" role="group" aria-label={`${valve}: which side`}>
        {sides.map((one) => (
          <button
            type="button"
            key={one}
            id={`${name}.${one}`}
            aria-pressed={one === side}
            onClick={() => turnTo(one)}
          >
            {WORDS[one]} <strong>{shown(felt[one], one)}</strong>
          </button>
        ))}
      </div>
      <Chips
        legend={<span class="sr">{`${valve}, ${WORDS[side].toLowerCase()}: leaf in ${unitName(unit)}`}</span>}
        name={`${name}.${side}.leaf`}
        value={value}
        choices={choices}
        pick={pick}
        describedBy={faults}
      />
      <Faults id={faults} problems={[...here, ...rest]} />
      <div class="row more-ways">
        {typing || own ? (
          <Typed
            id={`${name}.${side}.typed`}
            label={`${WORDS[side]}, typed`}
            unit={unit}
            value={value === NONE ? "" : value}
            invalid={here.length > 0}
            describedBy={faults}
            take={pick}
          />
        ) : (
          <button type="button" class="quiet" onClick={() => setTyping(true)}>
            Type it
          </button>
        )}
        <button
          type="button"
          class="quiet"
          onClick={() =>
            side === "drags" ? (change({ ...felt, how: "between" }), ask("goes")) : ask("drags")
          }
        >
          {side === "drags" ? "One goes, one does not" : "One drags lightly"}
        </button>
        <button
          type="button"
          class="quiet"
          onClick={() => change({ ...felt, how: "between", goes: "", refuses: "", drags: "" })}
        >
          Clear
        </button>
      </div>
    </div>
  );
}

const shown = (value: string, side: Side): string =>
  value === NONE ? (side === "goes" ? "none" : "all go") : bare(value) || "…";

interface TypedProps {
  id: string;
  label: string;
  unit: string;
  value: string;
  invalid: boolean;
  describedBy: string;
  take: (value: string) => void;
}

/** A leaf that is not in the set, or several together: 0.10 + 0.05. */
function Typed({ id, label, unit, value, invalid, describedBy, take }: TypedProps) {
  const [text, setText] = useTyped(value);
  return (
    <span class="typed">
      <label class="sr" for={id}>
        {label}
      </label>
      <input
        id={id}
        type="text"
        inputMode="decimal"
        autoComplete="off"
        placeholder={`0.10 + 0.05 ${unit}`}
        value={text}
        aria-invalid={invalid}
        aria-describedby={describedBy}
        onInput={(event) => setText(event.currentTarget.value)}
        onChange={(event) => {
          const next = event.currentTarget.value.trim() && typed(event.currentTarget.value, unit);
          if (next !== value) take(next);
        }}
      />
    </span>
  );
}
