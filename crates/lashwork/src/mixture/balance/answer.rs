//! What a balance comes to.

use super::{BalanceAssumption, NextReading, Response, Scatter, Shown};
use crate::quantity::ScrewAngle;
use crate::tolerance::{HasLimits, Judgement, Uncertainty};
use alloc::vec::Vec;
use serde::Serialize;

/// A throttle's reading.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ThrottleStand<R: Shown> {
    /// Which, from 0.
    pub throttle: usize,
    /// Its mean reading.
    pub reading: R,
    /// Standard uncertainty of that.
    pub standard_uncertainty: Uncertainty<R>,
    /// How far it is over the reference.
    pub over_reference: R::Difference,
    /// Standard uncertainty of that; nought for the reference itself.
    pub over_reference_uncertainty: Uncertainty<R::Difference>,
    /// Whether that is within the allowed difference, if one was stated.
    pub judgement: Option<Judgement>,
}

/// Which way throttles go.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Way {
    /// Further open.
    Open,
    /// Further shut.
    Close,
    /// Neither: the readings are equal.
    Leave,
}

/// How far to turn a screw.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Turn {
    /// How far, positive clockwise.
    pub turn: ScrewAngle,
    /// Standard uncertainty, in degrees.
    pub standard_uncertainty: f64,
}

/// What one screw has to do, once those before it in the list are done.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Move<D: HasLimits> {
    /// Its joint, from 0.
    pub joint: usize,
    /// The throttle to which it sets those beyond.
    pub to_match: usize,
    /// The throttles that it moves.
    pub beyond: Vec<usize>,
    /// By how much their readings have to change.
    pub change: D,
    /// Standard uncertainty of that.
    pub standard_uncertainty: Uncertainty<D>,
    /// Which way the throttles go.
    pub way: Way,
    /// The chance that this way is the right one.
    pub way_right: f64,
    /// Whether the screw goes clockwise, if that is known; from trials where they are clear.
    pub clockwise: Option<bool>,
    /// How far; none without clear trials.
    pub turn: Option<Turn>,
    /// What a turn does, from trials.
    pub response: Option<Response<D>>,
}

/// Two throttles on one shaft.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct RigidDifference<D: HasLimits> {
    /// Their joint, from 0.
    pub joint: usize,
    /// How far the outer one's reading is over the inner one's.
    pub difference: D,
    /// Standard uncertainty of that.
    pub standard_uncertainty: Uncertainty<D>,
    /// Whether that is within the allowed difference, if one was stated: no screw of the linkage mends it.
    pub judgement: Option<Judgement>,
}

/// The answer to a [`BalanceCheck`](super::BalanceCheck).
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BalanceAnswer<R: Shown> {
    /// The throttles as they stand.
    pub throttles: Vec<ThrottleStand<R>>,
    /// What each screw has to do, in the order of work: from the reference outwards.
    pub moves: Vec<Move<R::Difference>>,
    /// Throttles on one shaft.
    pub rigid: Vec<RigidDifference<R::Difference>>,
    /// How far the greatest mean is over the least.
    pub spread: R::Difference,
    /// Whether greatest less least is within the allowed difference, if one was stated.
    pub judgement: Option<Judgement>,
    /// What to read next; none if no reading tells more.
    pub next: Option<NextReading>,
    /// How far single readings scatter.
    pub scatter: Scatter<R>,
    /// What was taken for granted.
    pub assumptions: Vec<BalanceAssumption>,
}
