//! What was found of the balance.

use crate::job::work::{MeasuredReport, WorkAdvice};
use crate::mixture::balance::{Before, Choked, CylinderCause, Matter, Stands, Way};
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// How evenly the throttles share the work, and what to do.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct BalanceReport {
    /// What came out, in words.
    pub verdict_text: String,
    /// The greatest less the least against what is allowed, if that was stated.
    pub spread: Option<MeasuredReport>,
    /// The unit of all numbers here: `kpa` for vacuum, `kg_per_h` for flow; none if nothing was read.
    pub unit: Option<&'static str>,
    /// Greatest mean less least.
    pub greatest_less_least: Option<f64>,
    /// What is allowed.
    pub allowed: Option<f64>,
    /// The decision rule of the verdicts in words, if there is a limit to judge by.
    pub rule: Option<&'static str>,
    /// What must be right beforehand and is not, or was not looked at, in the order of work.
    pub beforehand: Vec<BalanceBeforeReport>,
    /// The throttles as they stand.
    pub throttles: Vec<ThrottleReport>,
    /// What to turn, in the order of work: what is done is not disturbed by what comes after. Empty while
    /// something else has to be settled first, or where nothing is to be turned.
    pub turns: Vec<BalanceTurnReport>,
    /// Throttles on one shaft.
    pub shafts: Vec<BalanceShaftReport>,
    /// Whether what differs is a matter of the throttle or of the cylinder behind it; empty if nothing is
    /// known of the openings.
    pub cylinders: Vec<ThrottleCylinderReport>,
    /// What to read next, in words; none if no reading tells more.
    pub next: Option<String>,
    /// What to do.
    pub advice: WorkAdvice,
}

/// A throttle.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ThrottleReport {
    /// Its name.
    pub name: String,
    /// Whether the others are set to it.
    pub is_reference: bool,
    /// Its mean reading; none if it is not read yet.
    pub reading: Option<f64>,
    /// Standard uncertainty of that; none while there is too little to tell.
    pub reading_u: Option<f64>,
    /// How far it is over the reference; none while one of the two is not read.
    pub over_reference: Option<f64>,
    /// Standard uncertainty of that; none while there is too little to tell.
    pub over_reference_u: Option<f64>,
    /// Whether that is within what is allowed.
    pub judged: Option<MeasuredReport>,
    /// All of it in words.
    pub text: String,
}

/// What to do with one screw.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct BalanceTurnReport {
    /// The throttles between which it sits.
    pub between: [String; 2],
    /// The throttle to which it sets those beyond.
    pub to_match: String,
    /// The throttles that it moves.
    pub moves: Vec<String>,
    /// Which way they go.
    pub way: Way,
    /// The chance that this is the right way.
    pub way_right: f64,
    /// Whether the screw goes clockwise, if that is known.
    pub clockwise: Option<bool>,
    /// How far, in degrees, positive clockwise; only where trials are clear and the way is.
    pub degrees: Option<f64>,
    /// Standard uncertainty of that, in degrees.
    pub degrees_u: Option<f64>,
    /// In words.
    pub text: String,
}

/// Two throttles on one shaft.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct BalanceShaftReport {
    /// The throttles.
    pub between: [String; 2],
    /// How far the outer one's reading is over the inner one's.
    pub difference: f64,
    /// Standard uncertainty of that.
    pub difference_u: f64,
    /// Whether that is within what is allowed.
    pub judged: Option<MeasuredReport>,
    /// In words.
    pub text: String,
}

/// Something that must be right before the throttles are balanced.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct BalanceBeforeReport {
    /// What.
    pub what: Before,
    /// Why the balance does not rest on it.
    pub stands: Stands,
    /// In words.
    pub text: &'static str,
}

/// What the difference of a throttle is a matter of: each against the median of the others.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ThrottleCylinderReport {
    /// The throttle.
    pub name: String,
    /// Whether the air goes through it by its opening alone.
    pub choked: Choked,
    /// How much further it is open, as a share: -0.1 for 10 % less; none where all were set alike.
    pub opening: Option<f64>,
    /// Standard uncertainty of that.
    pub opening_u: Option<f64>,
    /// How much more its cylinder draws, as a share.
    pub breathing: f64,
    /// Standard uncertainty of that.
    pub breathing_u: f64,
    /// The chance that this is more than matters.
    pub differs: f64,
    /// What it is a matter of.
    pub matter: Matter,
    /// Why the cylinder may draw less, what was found wrong first.
    pub causes: Vec<CylinderCause>,
    /// In words.
    pub text: String,
}
