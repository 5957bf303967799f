//! How evenly the cylinders fire.

use crate::ignition::evenness::{UnevenCause, UnevenVerdict};
use crate::job::work::{MeasuredReport, WorkAdvice};
use crate::quantity::{CrankAngle, DistributorAngle};
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// How evenly the cylinders fire, what may be the matter, and what to do.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct EvennessReport {
    /// What must be sure for the readings to say anything of evenness.
    pub first: Vec<String>,
    /// Each spark against its place beside the others, along the firing order.
    pub lobes: Vec<LobeFiringReport>,
    /// All together against the book; the timing's matter, not that of evenness.
    pub mean: Option<MeasuredReport>,
    /// From the earliest to the latest.
    pub spread: Option<CrankAngle>,
    /// How far a spark may be from its place, either way.
    pub tolerance: Option<CrankAngle>,
    /// The part that goes once up and down in a turn of the rotor; none with fewer than four cylinders.
    pub once_round: Option<OnceRoundReport>,
    /// The parts of the unevenness, in words, each with its uncertainty.
    pub parts: Vec<String>,
    /// What came out; none if nothing was read.
    pub verdict: Option<UnevenVerdict>,
    /// The same in words.
    pub verdict_text: String,
    /// The explanations, the most probable first; those below 1 % are left out.
    pub explanations: Vec<UnevenGroupReport>,
    /// What would tell them apart, the cheapest first.
    pub looks: Vec<String>,
    /// What to do.
    pub advice: WorkAdvice,
}

/// One spark against its place.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct LobeFiringReport {
    /// The cylinder.
    pub cylinder: String,
    /// Where its spark belongs: how far the rotor turns to it from that of the first one.
    pub place: DistributorAngle,
    /// How late about the mean of all, in crank degrees; early is negative.
    pub late_deg: f64,
    /// Its standard uncertainty, in crank degrees.
    pub uncertainty_deg: f64,
    /// What the part that goes once round leaves of it, in crank degrees.
    pub residual_deg: f64,
    /// Whether it is within the tolerance.
    pub judged: MeasuredReport,
}

/// The part of the unevenness that goes once up and down in a turn of the rotor.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct OnceRoundReport {
    /// Half of the way from the earliest to the latest.
    pub amplitude: CrankAngle,
    /// Its standard uncertainty.
    pub amplitude_u: CrankAngle,
    /// How far the rotor is past the first spark where one would come latest; none where it is not clear.
    pub latest_at: Option<DistributorAngle>,
    /// Its standard uncertainty.
    pub latest_at_u: Option<DistributorAngle>,
    /// The chance that the doubt of the readings alone makes as much.
    pub chance_by_reading: f64,
}

/// Explanations that these readings cannot tell apart.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct UnevenGroupReport {
    /// How probable it is that one of them is true.
    pub probability: f64,
    /// Those in it, the most probable first.
    pub explanations: Vec<UnevenReport>,
    /// All of it in words.
    pub text: String,
}

/// What may be the matter.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct UnevenReport {
    /// What.
    pub cause: UnevenCause,
    /// Whose lobe, or whose reading.
    pub cylinder: Option<String>,
    /// How probable, given the readings.
    pub probability: f64,
    /// In words.
    pub text: String,
}
