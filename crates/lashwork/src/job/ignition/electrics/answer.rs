//! What was found of coil, condenser and plugs.

use crate::job::work::{MeasuredReport, WorkAdvice};
use crate::quantity::{
    AbsolutePressure, BriefTime, CrankSpeed, Current, Energy, PlugGap, Resistance, Voltage,
};
use crate::tolerance::Verdict;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// What was found of coil, condenser and plugs, and what to do.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ElectricsReport {
    /// Windings, ballast and leads, at the book's temperature.
    pub resistors: Vec<ResistorReport>,
    /// The condenser.
    pub condenser: Option<CondenserReport>,
    /// What the coil holds at each speed that was asked for.
    pub charges: Vec<ChargeReport>,
    /// From which speed the coil is weak.
    pub weak: Option<WeakReport>,
    /// The plugs.
    pub plug: Option<PlugReport>,
    /// What to do; nothing where all is well.
    pub advice: Vec<WorkAdvice>,
}

impl ElectricsReport {
    /// Every verdict in it.
    pub(super) fn verdicts(&self) -> impl Iterator<Item = Verdict> + '_ {
        let resistors = self.resistors.iter().filter_map(|one| one.judged.as_ref());
        let condenser = self.condenser.iter().filter_map(|one| one.judged.as_ref());
        let plug = self.plug.iter().filter_map(|one| one.gap.as_ref());
        resistors
            .chain(condenser)
            .chain(plug)
            .map(MeasuredReport::shown)
    }
}

/// A winding, a ballast resistor or a lead.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ResistorReport {
    /// What it is.
    pub name: String,
    /// Its resistance at the book's temperature.
    pub resistance: Resistance,
    /// Against the book.
    pub judged: Option<MeasuredReport>,
    /// How it came to that temperature, in words.
    pub text: String,
}

/// The condenser.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct CondenserReport {
    /// Its capacity against the book.
    pub judged: Option<MeasuredReport>,
    /// What the contacts say of it.
    pub contacts: Option<String>,
}

/// What the coil holds at a speed.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ChargeReport {
    /// Speed of the crank.
    pub speed: CrankSpeed,
    /// How long the contacts are closed.
    pub closed: BriefTime,
    /// The current when they open.
    pub current: Current,
    /// Its standard uncertainty, in amperes.
    pub current_u: f64,
    /// The energy then.
    pub energy: Energy,
    /// Its standard uncertainty, in millijoules.
    pub energy_u: f64,
    /// The current over the one that flows in the end.
    pub share_of_current: f64,
    /// In words.
    pub text: String,
}

/// From which speed the coil is weak.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct WeakReport {
    /// Speed of the crank.
    pub speed: CrankSpeed,
    /// Its standard uncertainty, in revolutions a minute.
    pub uncertainty: f64,
    /// In words.
    pub text: String,
}

/// The plugs.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct PlugReport {
    /// The gap against the book.
    pub gap: Option<MeasuredReport>,
    /// What to set it to.
    pub set_to: Option<PlugGap>,
    /// The pressure when the spark comes.
    pub pressure: Option<AbsolutePressure>,
    /// The voltage needed there by the law of Paschen.
    pub paschen: Option<Voltage>,
    /// The same by the straight line.
    pub linear: Option<Voltage>,
    /// How probable it is that the voltage suffices.
    pub enough: Option<f64>,
    /// In words.
    pub text: Vec<String>,
}
