// The second step: ignition, and the card for each part of it.

import type { State } from "../state";
import { StepView, type Step } from "../steps/view";
import { FIGURES } from "../words";
import { AdvanceCard } from "./advance";
import { ContactsCard } from "./contacts";
import { BeforeCard } from "./before";
import { ElectricsCard } from "./electrics";
import { EvennessCard } from "./evenness";
import { LeadsCard } from "./leads";
import { MagnetoCard } from "./magneto";
import { ON_PAPER } from "./paper";
import { PointCard } from "./point";
import { PRESETS } from "./presets";
import { TimingCard } from "./timing";

const STEP: Step = {
  ...ON_PAPER,
  cards: {
    before: ["To begin", BeforeCard],
    leads: ["Leads", LeadsCard],
    contacts: ["Contacts", ContactsCard],
    timing: ["Timing", TimingCard],
    advance: ["Advance", AdvanceCard],
    evenness: ["Even sparks", EvennessCard],
    electrics: ["Coil, plugs", ElectricsCard],
    magneto: ["Magneto", MagnetoCard],
    point: ["Point", PointCard],
  },
  presets: PRESETS,
  besides: (
    <p>
      <a class="button" href="#figures">
        {FIGURES}
      </a>
    </p>
  ),
};

export const IgnitionView = ({ state }: { state: State }) => <StepView state={state} step={STEP} />;
