//! What cranking compression says.

use crate::condition::compression::{
    BuildUp, CompressionCause, CompressionLook, CrankingFault, ExponentDoubt,
};
use crate::job::work::{MeasuredReport, WorkAdvice};
use crate::quantity::GaugePressure;
use crate::tolerance::Verdict;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// Cranking compression: expected against read, each rule by itself, and what lowers a cylinder.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct CompressionReport {
    /// What came out, in words.
    pub verdict_text: String,
    /// Why it holds for now only, if it does.
    pub provisional: Option<String>,
    /// The engine as a whole against what its dimensions give, if its ratio is stated.
    pub level: Option<CompressionLevelReport>,
    /// That in words, or why it cannot be told.
    pub level_text: String,
    /// The cylinders the others are compared with.
    pub standard: Vec<String>,
    /// Each printed rule by itself, in the order of the request.
    pub rules: Vec<CompressionRuleReport>,
    /// Each cylinder, in the order of the readings.
    pub cylinders: Vec<CompressionCylinderReport>,
    /// Head gaskets between neighbours that may leak; those below 1 % are left out.
    pub gaskets: Vec<CompressionGasketReport>,
    /// What about the cranking moves the readings.
    pub faults: Vec<CrankingFault>,
    /// The same in words.
    pub fault_texts: Vec<String>,
    /// Cylinders without a reading.
    pub not_read: Vec<String>,
    /// Where to look next; none if every cylinder is sound.
    pub next: Option<CompressionNextReport>,
    /// What to do.
    pub advice: WorkAdvice,
}

/// The engine as a whole against what its dimensions give.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct CompressionLevelReport {
    /// The least the gauge should show.
    pub expected_from: Option<GaugePressure>,
    /// The most.
    pub expected_to: Option<GaugePressure>,
    /// Standard uncertainty of both, in kilopascals.
    pub expected_u: f64,
    /// The exponent that the good cylinders imply.
    pub exponent: f64,
    /// Its standard uncertainty.
    pub exponent_u: f64,
    /// Whether that is a usual one: below, all cylinders are low; above, all are high.
    pub verdict: Verdict,
    /// An exponent that cannot be.
    pub doubt: Option<ExponentDoubt>,
}

/// What a printed rule says.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct CompressionRuleReport {
    /// The least a cylinder may show here.
    pub limit: GaugePressure,
    /// The lowest cylinder as read.
    pub lowest: String,
    /// The engine by the rule.
    pub judged: MeasuredReport,
    /// All of that in words.
    pub text: String,
    /// Cylinders that are low by it.
    pub low: Vec<String>,
}

/// What a cylinder's reading says.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct CompressionCylinderReport {
    /// The cylinder.
    pub name: String,
    /// Without oil.
    pub dry: GaugePressure,
    /// With oil.
    pub wet: Option<GaugePressure>,
    /// How the gauge rose.
    pub build_up: Option<BuildUp>,
    /// What it should show by the good cylinders beside it; none if it is the only good one.
    pub expected: Option<GaugePressure>,
    /// Standard uncertainty of that, in kilopascals.
    pub expected_u: Option<f64>,
    /// What it shows over that.
    pub share: Option<f64>,
    /// Its standard uncertainty.
    pub share_u: Option<f64>,
    /// The causes, the most probable first; those below 1 % are left out.
    pub causes: Vec<CompressionCauseReport>,
    /// Expected against read, and what follows, in words.
    pub text: String,
    /// What oil said, in words.
    pub oil_text: Option<String>,
}

/// A cause, and how far it is to be believed.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct CompressionCauseReport {
    /// The cause.
    pub cause: CompressionCause,
    /// How probable it is by what was read.
    pub probability: f64,
    /// In words.
    pub text: &'static str,
}

/// A head gasket between two neighbours.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct CompressionGasketReport {
    /// Between which.
    pub between: [String; 2],
    /// How probable it is that it leaks.
    pub probability: f64,
    /// In words.
    pub text: String,
}

/// Where to look next.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct CompressionNextReport {
    /// At what.
    pub look: CompressionLook,
    /// In words.
    pub text: String,
}
