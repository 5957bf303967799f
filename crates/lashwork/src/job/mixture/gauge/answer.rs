//! What the vacuum gauge says.

use crate::job::work::WorkAdvice;
use crate::mixture::gauge::{GaugeCause, GaugeLook, GaugeVerdict};
use crate::quantity::Vacuum;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// What the vacuum gauge says, and where to look next.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct GaugeReport {
    /// What came out.
    pub verdict: GaugeVerdict,
    /// The same in words.
    pub verdict_text: String,
    /// The causes, the most probable first; those below 1 % are left out.
    pub causes: Vec<GaugeCauseReport>,
    /// The least that the level may be at sea level, if it was read and the air around is stated.
    pub level_at_sea_from: Option<Vacuum>,
    /// The most.
    pub level_at_sea_to: Option<Vacuum>,
    /// That in words, or that the air around is not stated.
    pub level_text: Option<String>,
    /// What to look at next; none if no look tells more.
    pub next: Option<NextGaugeLookReport>,
    /// What to do.
    pub advice: WorkAdvice,
}

/// A cause, and how far it is to be believed.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct GaugeCauseReport {
    /// The cause.
    pub cause: GaugeCause,
    /// How probable it was taken to be before anything was seen.
    pub prior: f64,
    /// How probable it is by what was seen.
    pub probability: f64,
    /// In words.
    pub text: &'static str,
}

/// What to look at next.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct NextGaugeLookReport {
    /// At what.
    pub at: GaugeLook,
    /// In words.
    pub text: &'static str,
    /// How much doubt it takes away on average, in bits.
    pub bits: f64,
}
