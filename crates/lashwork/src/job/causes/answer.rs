//! What may be the matter.

use crate::causes::{Cause, CauseLook, CauseVerdict, Strength};
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// What may be the matter, by all that was found, and where to look next.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct CausesReport {
    /// What came out.
    pub verdict: CauseVerdict,
    /// The same in words.
    pub verdict_text: String,
    /// The causes, the most probable first; those below 3 %, and those below 10 % that nothing speaks for, are left
    /// out. Several may be there at once.
    pub causes: Vec<CauseReport>,
    /// How probable it is that nothing is the matter.
    pub nothing: f64,
    /// The part of that in which a cylinder leaks for the moment.
    pub passing: f64,
    /// How probable it is that it is something that is not weighed here.
    pub something_else: f64,
    /// How probable it is that two or more causes are there.
    pub several: f64,
    /// Where to look next, most told for a minute of work first.
    pub next: Vec<CausesNextReport>,
    /// What was not looked at at all.
    pub not_looked_at: Vec<CauseLook>,
    /// The same in words.
    pub not_looked_at_text: Option<String>,
    /// What was found and is not weighed, and why.
    pub remarks: Vec<String>,
    /// How far the probabilities are to be trusted.
    pub trust_text: &'static str,
}

/// A cause, and how far it is to be believed.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct CauseReport {
    /// The cause.
    pub cause: Cause,
    /// In words.
    pub text: &'static str,
    /// How probable it was taken to be before anything was seen.
    pub prior: f64,
    /// How probable it is by what was seen.
    pub probability: f64,
    /// The same in words, no stronger than what was tried.
    pub probability_text: String,
    /// Where, the most probable first.
    pub places: Vec<CausePlaceReport>,
    /// What speaks for it and against it, in the order of weighing.
    pub speaks: Vec<SpeaksReport>,
}

/// Where a cause may sit.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct CausePlaceReport {
    /// The cylinders; none for the engine as a whole.
    pub cylinders: Vec<String>,
    /// How probable it is that the cause is there.
    pub probability: f64,
    /// In words.
    pub text: String,
}

/// What a look says of a cause.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct SpeaksReport {
    /// The look.
    pub look: CauseLook,
    /// By itself, in decibans: above 0 for the cause, below against it.
    pub alone_db: f64,
    /// Beyond what the looks before it said.
    pub adds_db: f64,
    /// How heavily that weighs.
    pub strength: Strength,
    /// In words.
    pub text: String,
}

/// A look worth taking.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct CausesNextReport {
    /// At what.
    pub at: CauseLook,
    /// At which cylinder; none if at no single one.
    pub cylinder: Option<String>,
    /// How much doubt it takes away on average, in bits.
    pub bits: f64,
    /// Minutes of work.
    pub minutes: f64,
    /// In words, with what must be sure first.
    pub text: String,
}
