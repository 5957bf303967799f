// The third step: mixture, and the card for each part of it.

import type { State } from "../state";
import { StepView, type Step } from "../steps/view";
import { AirCard } from "./air";
import { BalanceCard } from "./balance";
import { BeforeCard } from "./before";
import { FloatCard } from "./float";
import { GasCard } from "./gas";
import { GaugeCard } from "./gauge";
import { IdleCard } from "./idle";
import { JetsCard } from "./jets";
import { ON_PAPER } from "./paper";
import { PRESETS } from "./presets";

const STEP: Step = {
  ...ON_PAPER,
  cards: {
    before: ["To begin", BeforeCard],
    air: ["Air", AirCard],
    gauge: ["Vacuum gauge", GaugeCard],
    float: ["Fuel level", FloatCard],
    jets: ["Jets", JetsCard],
    balance: ["Balance", BalanceCard],
    idle: ["Idle", IdleCard],
    gas: ["Exhaust gas", GasCard],
  },
  presets: PRESETS,
};

export const MixtureView = ({ state }: { state: State }) => <StepView state={state} step={STEP} />;
