//! What the diagnosis answers.

use super::model::Model;
use super::odd::{ApartValve, KindOff, OddValve};
use super::reading_fault::{ReadingFault, Way};
use alloc::vec::Vec;
use serde::Serialize;

/// What came of the diagnosis.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Status {
    /// No systematic fault is more probable than any cause, and no valve is far from its kind.
    NothingSpecial,
    /// No systematic fault stands out, but single valves are far from their kind.
    OddValves,
    /// A systematic fault is more probable, but not by enough to report it.
    Undecided,
    /// Something is worth checking.
    WorthChecking,
    /// Too few readings to say anything.
    TooFewReadings,
    /// More readings than are weighed.
    TooManyReadings,
}

/// One way in which a cause may be at work, weighed.
#[derive(Clone, Debug, PartialEq)]
pub struct WeighedWay {
    /// The way.
    pub way: Way,
    /// The logarithm to base 10 of the Bayes factor against 'no systematic fault'.
    pub log10_bayes_factor: f64,
    /// Its probability given the readings.
    pub posterior: f64,
    /// How much each reading speaks for it, given all others: logarithm to base 10, in the order of
    /// the readings; only for causes worth checking.
    pub support: Vec<f64>,
}

/// A kind of cause, weighed over all its ways.
#[derive(Clone, Debug, PartialEq)]
pub struct WeighedCause {
    /// The cause.
    pub cause: ReadingFault,
    /// Its probability before the readings.
    pub prior: f64,
    /// The logarithm to base 10 of the Bayes factor of its ways together.
    pub log10_bayes_factor: f64,
    /// Its probability given the readings.
    pub posterior: f64,
    /// Whether it is worth checking.
    pub worth_checking: bool,
    /// Its ways, the most probable first; those at least a tenth as probable as the first.
    pub ways: Vec<WeighedWay>,
}

/// The answer of [`diagnose`](super::diagnose).
#[derive(Clone, Debug, PartialEq)]
pub struct Diagnosis {
    /// What came of it.
    pub status: Status,
    /// The model of 'no systematic fault'.
    pub model: Model,
    /// How many times as wide as the model says the ordinary valves of this engine spread, on the mean.
    pub spread_times: f64,
    /// Valves far from their kind, the farthest first.
    pub odd_valves: Vec<OddValve>,
    /// Valves to measure once more before they are set, the most probably odd first; none where a cause is
    /// worth checking.
    pub apart: Vec<ApartValve>,
    /// Kinds far from their set value as a whole; without a cause worth checking the answer is then undecided.
    pub kinds_off: Vec<KindOff>,
    /// Probability of no systematic fault, given the readings.
    pub nothing_special: f64,
    /// The logarithm to base 10 of the marginal likelihood of 'no systematic fault': of the probability
    /// of the readings, with a density in 1/mm for each light drag.
    pub log10_evidence: f64,
    /// The causes that could be weighed, the most probable first.
    pub causes: Vec<WeighedCause>,
    /// The causes that could not.
    pub not_weighed: Vec<ReadingFault>,
}
