//! What the rockers said about where the crank stands.

use crate::quantity::CyclePosition;
use crate::rockers::{CrankSlip, Feel, PhaseVerdict, PositionArc, RockerState};
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// The assumed position compared with the rockers checked.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct CrankCheckReport {
    /// Where the crank is assumed to be.
    pub position: CyclePosition,
    /// The same in words.
    pub believed: String,
    /// The chance of a wrong call.
    pub wrong_call: f64,
    /// Every rocker: what it must do there, and what it did.
    pub rockers: Vec<RockerReport>,
    /// Possible explanations, most likely first.
    pub explanations: Vec<ExplanationReport>,
    /// The arcs of the whole cycle that fit best.
    pub arcs: Vec<PositionArc>,
    /// Rockers called both free and tight.
    pub contradictions: Vec<String>,
    /// The outcome.
    pub verdict: PhaseVerdict,
    /// The same in words.
    pub text: String,
    /// The rocker to check next; none if no other can tell the explanations apart.
    pub next: Option<NextRockerReport>,
}

/// One rocker.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct RockerReport {
    /// Its valve by name.
    pub valve: String,
    /// What it must do at the assumed position.
    pub expected: RockerState,
    /// What it was called, each time; empty if it was not checked.
    pub calls: Vec<Feel>,
}

/// Hypotheses that no rocker can tell apart.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ExplanationReport {
    /// Those hypotheses.
    pub hypotheses: Vec<CrankHypothesisReport>,
    /// How likely one of them is true, if any is.
    pub probability: f64,
    /// How many calls were then wrong.
    pub wrong_calls: usize,
    /// The chance of so many or more wrong calls.
    pub chance_of_so_many: f64,
}

/// One hypothesis.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct CrankHypothesisReport {
    /// What is wrong, if anything.
    pub cause: CrankSlip,
    /// The same in words, with the place.
    pub text: String,
    /// Where the crank then is.
    pub position: CyclePosition,
    /// The firing order, if it is another one.
    pub order: Option<Vec<String>>,
    /// How likely it was taken to be before any rocker was checked.
    pub prior: f64,
    /// How likely it is now.
    pub probability: f64,
}

/// A rocker worth checking.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct NextRockerReport {
    /// Its valve by name.
    pub valve: String,
    /// How much doubt its call removes on average, in bits.
    pub bits: f64,
}
