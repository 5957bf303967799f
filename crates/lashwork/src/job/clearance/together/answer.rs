//! What all readings say together, as the report shows it.

use crate::diagnosis::{KindModel, ReadingFault, Status};
use crate::quantity::LashChange;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// The readings taken together.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct DiagnosisReport {
    /// The outcome.
    pub status: Status,
    /// The same in one sentence.
    pub text: String,
    /// Where several causes are tied: what tells them apart.
    pub tell_apart: Option<String>,
    /// Probability that there is no systematic fault; before the readings where there were too few.
    pub nothing_special: f64,
    /// The causes that were considered, the most probable first.
    pub hypotheses: Vec<HypothesisReport>,
    /// For each odd valve: possible causes to inspect, not findings.
    pub inspections: Vec<Inspection>,
    /// Valves that stand apart: to be measured once more before they are set.
    pub stand_apart: Vec<StandsApart>,
    /// What these readings cannot tell, and why.
    pub cannot_tell: Vec<String>,
    /// The numbers behind it.
    pub model: ModelReport,
}

/// One kind of cause.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct HypothesisReport {
    /// The cause.
    pub cause: ReadingFault,
    /// The cause in words.
    pub text: String,
    /// Its probability before the readings.
    pub prior: f64,
    /// The logarithm to base 10 of its Bayes factor over no systematic fault.
    pub log10_bayes_factor: f64,
    /// Its probability given the readings.
    pub posterior: f64,
    /// Whether it is worth checking.
    pub worth_checking: bool,
    /// Whether the readings cannot tell it from another cause that is worth checking.
    pub tied: bool,
    /// Where and how, the most probable first; those at least a tenth as probable as the first.
    pub ways: Vec<WayReport>,
}

/// One place or manner in which a cause may be at work.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct WayReport {
    /// In words.
    pub text: String,
    /// The logarithm to base 10 of its Bayes factor over no systematic fault.
    pub log10_bayes_factor: f64,
    /// Its probability given the readings.
    pub posterior: f64,
    /// The readings that speak for it or against it, the strongest first; only for causes worth
    /// checking.
    pub evidence: Vec<EvidenceReport>,
}

/// One reading as evidence.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct EvidenceReport {
    /// The valve by name.
    pub valve: String,
    /// What was read.
    pub reading: String,
    /// What the cause makes of it.
    pub under: String,
    /// How much it speaks for the cause given all other readings: logarithm to base 10, negative
    /// against it.
    pub log10_support: f64,
}

/// An odd valve, and the possible causes to inspect; the maker's manual says how.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct Inspection {
    /// The valve by name.
    pub valve: String,
    /// Whether it is looser than the rest of its kind, else tighter.
    pub looser: bool,
    /// How far it is from the middle of its kind.
    pub off: LashChange,
    /// The same in words.
    pub off_text: String,
    /// The same in spreads: 5 and more is odd.
    pub spreads: f64,
    /// What to inspect.
    pub look_at: Vec<&'static str>,
}

/// A valve that is not far enough from its kind to be named as odd, and too far to be taken for ordinary.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct StandsApart {
    /// The valve by name.
    pub valve: String,
    /// Whether it is looser than the rest of its kind, else tighter.
    pub looser: bool,
    /// How far it is from the middle of its kind.
    pub off: LashChange,
    /// The probability that it is odd.
    pub probability: f64,
    /// What to do about it, in one sentence.
    pub text: String,
}

/// The numbers behind a diagnosis.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ModelReport {
    /// The specification the engine is assumed to follow.
    pub specification: String,
    /// How many readings there are.
    pub readings: usize,
    /// Probability, before the readings, of a systematic fault.
    pub prior: f64,
    /// Causes are reported when the probability of no systematic fault is at most this.
    pub reported_at_most: f64,
    /// Causes at most this many times less probable than the first are tied with it.
    pub tied_within: f64,
    /// Intake valves of an ordinary engine.
    pub intake: KindModel,
    /// Exhaust valves of an ordinary engine.
    pub exhaust: KindModel,
    /// How many times as wide the ordinary valves of this engine spread, on the mean.
    pub spread_times: f64,
    /// Share of worn valves.
    pub worn_share: f64,
    /// Standard deviation of what moves all valves of a kind together.
    pub drift_mm: f64,
    /// Mean shift from an engine warmer than noticed.
    pub warmth_mean_mm: f64,
    /// Standard deviation of that shift.
    pub warmth_spread_mm: f64,
    /// The logarithm to base 10 of the probability of the readings if there is no systematic fault.
    pub log10_evidence: f64,
}
