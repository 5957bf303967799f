//! What the rockers said about where the crank stands.

use crate::quantity::CyclePosition;
use crate::rockers::{Call, Cause, PhaseVerdict, PositionArc, RockerState};
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// The belief held against the rockers felt.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct CrankCheckReport {
    /// Where the crank is believed to stand.
    pub position: CyclePosition,
    /// The same in words.
    pub believed: String,
    /// The chance of a wrong call.
    pub wrong_call: f64,
    /// Every rocker: what it must do there, and what was felt.
    pub rockers: Vec<RockerReport>,
    /// What may be the matter, most likely first.
    pub explanations: Vec<ExplanationReport>,
    /// The arcs of the whole cycle that fit best.
    pub arcs: Vec<PositionArc>,
    /// Rockers called both free and held.
    pub contradictions: Vec<String>,
    /// What came out.
    pub verdict: PhaseVerdict,
    /// The same in words.
    pub text: String,
    /// The rocker to feel next; none if no other can tell the explanations apart.
    pub next: Option<NextRockerReport>,
}

/// One rocker.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct RockerReport {
    /// Its valve by name.
    pub valve: String,
    /// What it must do at the believed position.
    pub expected: RockerState,
    /// What was felt, each time; empty if it was not.
    pub calls: Vec<Call>,
}

/// Hypotheses that no rocker can tell apart.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
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
pub struct CrankHypothesisReport {
    /// What is the matter.
    pub cause: Cause,
    /// The same in words, with the place.
    pub text: String,
    /// Where the crank then stands.
    pub position: CyclePosition,
    /// The firing order, if it is another one.
    pub order: Option<Vec<String>>,
    /// How likely it was held before anything was felt.
    pub prior: f64,
    /// How likely it is now.
    pub probability: f64,
}

/// A rocker worth feeling.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct NextRockerReport {
    /// Its valve by name.
    pub valve: String,
    /// How much doubt its call takes away on average, in bits.
    pub bits: f64,
}
