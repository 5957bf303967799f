//! What was found of the leads.

use crate::ignition::leads::{LeadFault, LeadVerdict};
use crate::job::work::WorkAdvice;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// What was found of leads and distributor drive, and what to do.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct LeadsReport {
    /// What came out.
    pub verdict: LeadVerdict,
    /// The same in words.
    pub verdict_text: String,
    /// The explanations, the most probable first; those below 1 % are left out.
    pub explanations: Vec<LeadGroupReport>,
    /// What to look at next; none if no look tells more.
    pub next: Option<NextLookReport>,
    /// What to do.
    pub advice: WorkAdvice,
}

/// States that no look can tell apart.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct LeadGroupReport {
    /// How probable it is that one of them is true.
    pub probability: f64,
    /// Those in it, the most probable first.
    pub states: Vec<LeadStateReport>,
    /// The cylinders that then get no spark within 35 crank degrees of where it belongs; not known for
    /// something else.
    pub wrong_sparks: Option<Vec<String>>,
    /// All of it in words.
    pub text: String,
}

/// How things may be.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct LeadStateReport {
    /// The kind of fault.
    pub fault: LeadFault,
    /// How probable, given what was found.
    pub probability: f64,
    /// In words.
    pub text: String,
}

/// What to look at next.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct NextLookReport {
    /// At what, in words.
    pub text: String,
    /// How much doubt it takes away on average, in bits.
    pub bits: f64,
}
