//! What was found of the timing.

use crate::ignition::timing::{BodyTurn, CurveCause, TimingSlip};
use crate::job::work::{MeasuredReport, WorkAdvice};
use crate::quantity::{Advance, CrankSpeed};
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// What was found of the timing, and what to do.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct TimingReport {
    /// The point against the book, brought to what the book prints it for.
    pub found: Option<MeasuredReport>,
    /// When the spark came as it was read, the lamp's delay put right.
    pub sparks: Option<Advance>,
    /// The point brought to what the book prints it for.
    pub point: Option<Advance>,
    /// Its standard uncertainty, in crank degrees.
    pub point_u_deg: Option<f64>,
    /// Slips that leave just such a number.
    pub slips: Vec<TimingSlipReport>,
    /// What to do.
    pub advice: WorkAdvice,
    /// How far the body turns with it.
    pub turn: Option<BodyTurnReport>,
    /// How the advance follows its curve, if it was read at several speeds.
    pub curve: Option<AdvanceReport>,
}

/// A slip that a reading may show.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct TimingSlipReport {
    /// Which.
    pub slip: TimingSlip,
    /// In words.
    pub text: String,
}

/// How far the distributor's body turns.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct BodyTurnReport {
    /// In numbers.
    pub turn: BodyTurn,
    /// In words.
    pub text: String,
}

/// How the advance follows its curve.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct AdvanceReport {
    /// Each reading against the book at its speed, in the order in which they were given.
    pub rows: Vec<AdvanceRowReport>,
    /// What the book asks for by speed: straight between two corners.
    pub band: Vec<AdvanceBandReport>,
    /// The curve as it was fitted: straight between two corners; empty if the readings do not tell it.
    pub line: Vec<AdvanceLineReport>,
    /// The static point, the springs and the end, fitted; in words, each with its uncertainty.
    pub fitted: Vec<String>,
    /// Probability that nothing is wrong.
    pub sound: f64,
    /// What may be wrong, the most probable first.
    pub causes: Vec<CurveCauseReport>,
    /// What these readings cannot show.
    pub not_weighed: Vec<CurveCause>,
    /// In one line.
    pub summary: String,
    /// What to do.
    pub advice: WorkAdvice,
}

/// One reading of the curve.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct AdvanceRowReport {
    /// The speed; nought with the engine standing.
    pub speed: CrankSpeed,
    /// When the spark came, the lamp's delay put right.
    pub sparks: Advance,
    /// Standard uncertainty of reading the mark, in crank degrees.
    pub uncertainty_deg: f64,
    /// The latest that is right there; none where the book's end is open.
    pub least: Option<Advance>,
    /// The earliest.
    pub most: Option<Advance>,
    /// What was read against what the book makes of that speed.
    pub judged: MeasuredReport,
}

/// What the book asks for at a speed.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct AdvanceBandReport {
    /// The speed.
    pub speed: CrankSpeed,
    /// The latest that is right there; none where the book's end is open.
    pub least: Option<Advance>,
    /// The earliest.
    pub most: Option<Advance>,
}

/// Where the fitted curve stands at a speed.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct AdvanceLineReport {
    /// The speed.
    pub speed: CrankSpeed,
    /// When the spark comes there.
    pub sparks: Advance,
}

/// What may be wrong with the advance.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct CurveCauseReport {
    /// Which.
    pub cause: CurveCause,
    /// How probable, given the readings.
    pub probability: f64,
    /// What it is and where to look.
    pub text: String,
}
