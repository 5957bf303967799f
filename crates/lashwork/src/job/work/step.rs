//! The steps of the service in their order, and which leans on which.
//!
//! # Source
//! Gap or dwell before timing, since it moves the spark: makers' manuals, named in the tests. Head bolts before
//! valves, valves before compression and ignition: common practice, no source. A late spark and valves that hardly
//! close show on a vacuum gauge: published, named in its tests.

use alloc::format;
use alloc::string::String;
use serde::Serialize;

/// A step, in the order of work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum WorkStep {
    /// The head's bolts.
    Head,
    /// Valve clearances.
    Valves,
    /// Cranking compression.
    Compression,
    /// Leak-down.
    Leak,
    /// Which lead goes where, and whether the distributor is in by the right tooth.
    Leads,
    /// Contacts: gap or dwell.
    Contacts,
    /// Timing: where the spark comes.
    Timing,
    /// Advance with speed and vacuum.
    Advance,
    /// How evenly the cylinders fire.
    Evenness,
    /// Coil, condenser and plugs.
    Electrics,
    /// Magnetos.
    Magneto,
    /// What the vacuum gauge says.
    Gauge,
    /// Fuel level in the float chamber.
    Float,
    /// Jets for the air there is.
    Jets,
    /// How evenly carburettors or throttles share the work.
    Balance,
    /// Idle speed and mixture.
    Idle,
    /// What the exhaust gas says.
    Gas,
}

/// The section of a job a step belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::job) enum Section {
    Clearance,
    Condition,
    Ignition,
    Mixture,
}

impl Section {
    /// Whether a step of the section leans on a step.
    pub(super) fn leans_on(self, on: WorkStep) -> bool {
        let own = WorkStep::ALL.iter().filter(|step| step.section() == self);
        own.flat_map(|step| step.leans_on()).any(|step| *step == on)
    }
}

impl WorkStep {
    pub(super) const ALL: [Self; 17] = [
        Self::Head,
        Self::Valves,
        Self::Compression,
        Self::Leak,
        Self::Leads,
        Self::Contacts,
        Self::Timing,
        Self::Advance,
        Self::Evenness,
        Self::Electrics,
        Self::Magneto,
        Self::Gauge,
        Self::Float,
        Self::Jets,
        Self::Balance,
        Self::Idle,
        Self::Gas,
    ];

    /// The step in words.
    pub(in crate::job) const fn word(self) -> &'static str {
        match self {
            Self::Head => "head bolts",
            Self::Valves => "valve clearances",
            Self::Compression => "compression",
            Self::Leak => "leak-down",
            Self::Leads => "leads and distributor drive",
            Self::Contacts => "contacts",
            Self::Timing => "timing",
            Self::Advance => "advance",
            Self::Evenness => "evenness",
            Self::Electrics => "coil, condenser and plugs",
            Self::Magneto => "magnetos",
            Self::Gauge => "vacuum gauge",
            Self::Float => "fuel level",
            Self::Jets => "jets",
            Self::Balance => "balance",
            Self::Idle => "idle speed and mixture",
            Self::Gas => "exhaust gas",
        }
    }

    /// Its word with the verb that goes with it: is or are settled.
    pub(super) fn settled(self) -> String {
        let verb = match self {
            Self::Head
            | Self::Valves
            | Self::Leads
            | Self::Contacts
            | Self::Electrics
            | Self::Magneto
            | Self::Jets => "are",
            _ => "is",
        };
        // What leans on the idle turns its mixture, which is then not settled.
        let word = if self == Self::Idle {
            "idle speed"
        } else {
            self.word()
        };
        // Whether there is anything to balance is not said.
        let where_any = if self == Self::Balance {
            ", where there is more than one carburettor or throttle"
        } else {
            ""
        };
        format!("the {word} {verb} settled{where_any}")
    }

    /// The section it belongs to.
    pub(super) const fn section(self) -> Section {
        match self {
            Self::Head | Self::Compression | Self::Leak => Section::Condition,
            Self::Valves => Section::Clearance,
            Self::Leads
            | Self::Contacts
            | Self::Timing
            | Self::Advance
            | Self::Evenness
            | Self::Electrics
            | Self::Magneto => Section::Ignition,
            Self::Gauge | Self::Float | Self::Jets | Self::Balance | Self::Idle | Self::Gas => {
                Section::Mixture
            }
        }
    }

    /// Whether anything of it can be set; the others are only read.
    pub(super) const fn can_be_set(self) -> bool {
        !matches!(
            self,
            Self::Compression | Self::Leak | Self::Advance | Self::Evenness | Self::Gauge
        )
    }

    /// Whether a fault of the engine can be hidden by what it sets.
    pub(super) const fn hides_a_fault(self) -> bool {
        matches!(self, Self::Balance | Self::Idle | Self::Gas)
    }

    /// The steps it leans on.
    pub(super) const fn leans_on(self) -> &'static [Self] {
        match self {
            Self::Head | Self::Electrics | Self::Gauge | Self::Float => &[],
            Self::Valves => &[Self::Head],
            Self::Compression | Self::Leak => &[Self::Head, Self::Valves],
            Self::Leads | Self::Contacts => &[Self::Valves],
            Self::Magneto => &[Self::Valves, Self::Leads],
            Self::Timing => &[Self::Valves, Self::Leads, Self::Contacts],
            Self::Advance => &[Self::Contacts],
            Self::Evenness => &[Self::Leads, Self::Contacts],
            Self::Jets | Self::Balance => &[Self::Valves, Self::Timing, Self::Float],
            Self::Idle => &[Self::Valves, Self::Timing, Self::Float, Self::Balance],
            Self::Gas => &[
                Self::Valves,
                Self::Timing,
                Self::Float,
                Self::Balance,
                Self::Idle,
            ],
        }
    }

    /// The steps that move what is read of it, though it does not wait for them: a vacuum gauge tells of valves and
    /// spark as they are.
    pub(super) const fn also_moved_by(self) -> &'static [Self] {
        match self {
            Self::Gauge => &[Self::Valves, Self::Timing],
            _ => &[],
        }
    }
}
