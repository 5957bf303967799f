// Condition, and the card for each part of it: what state the engine is in before anything is set.

import type { State } from "../state";
import { StepView, type Step } from "../steps/view";
import { BeforeCard } from "./before";
import { CompressionCard } from "./compression";
import { HeadCard } from "./head";
import { LeakCard } from "./leak";
import { ON_PAPER } from "./paper";
import { PRESETS } from "./presets";

const STEP: Step = {
  ...ON_PAPER,
  cards: {
    before: ["To begin", BeforeCard],
    head: ["Head bolts", HeadCard],
    compression: ["Compression", CompressionCard],
    leak: ["Leak-down", LeakCard],
  },
  presets: PRESETS,
};

export const ConditionView = ({ state }: { state: State }) => <StepView state={state} step={STEP} />;
