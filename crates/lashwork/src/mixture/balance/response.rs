//! What a turn of a screw does, learned from trials.

use super::{BalanceError, JoinedBy, Linkage, Shown};
use crate::quantity::ScrewAngle;
use crate::tolerance::{Measurand, Uncertainty};
use alloc::vec::Vec;
use serde::Serialize;

/// A slope that is not so many times its uncertainty gives no amount: its inverse might be anything.
const CLEAR: f64 = 3.0;

/// A screw turned by a known amount, and what the gauge showed before and after.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TrialTurn<R> {
    /// The screw, by the place of its joint, from 0.
    pub joint: usize,
    /// How far it was turned, positive clockwise.
    pub turn: ScrewAngle,
    /// What a throttle beyond it showed before.
    pub before: R,
    /// What the same throttle showed after.
    pub after: R,
    /// What a throttle that did not move showed before and after, if it was read: the whole engine runs
    /// otherwise after a turn.
    pub unmoved: Option<(R, R)>,
}

impl<R: Shown> TrialTurn<R> {
    fn change(&self) -> f64 {
        let drift = self
            .unmoved
            .map_or(0.0, |(before, after)| after.number() - before.number());
        self.after.number() - self.before.number() - drift
    }

    fn readings(&self) -> f64 {
        if self.unmoved.is_some() { 4.0 } else { 2.0 }
    }
}

/// What a turn of a screw does to the readings beyond it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Response<D: Measurand> {
    /// Change of the reading for one whole turn clockwise.
    pub per_turn: D,
    /// Its standard uncertainty.
    pub standard_uncertainty: Uncertainty<D>,
    /// From how many trials.
    pub trials: usize,
}

/// A slope in the unit of the readings for a degree, with its variance.
#[derive(Clone, Copy, Debug)]
pub(super) struct Slope {
    pub(super) value: f64,
    pub(super) variance: f64,
    pub(super) trials: usize,
}

impl Slope {
    /// Through nought and the trials of a screw, or of all screws where they are alike.
    pub(super) fn of<R: Shown>(
        linkage: &Linkage,
        trials: &[TrialTurn<R>],
        joint: usize,
        single: f64,
    ) -> Option<Self> {
        let own = |trial: &&TrialTurn<R>| linkage.are_alike() || trial.joint == joint;
        let own: Vec<&TrialTurn<R>> = trials.iter().filter(own).collect();
        let weighted = |of: &dyn Fn(&TrialTurn<R>) -> f64| -> f64 {
            own.iter().map(|trial| of(trial) / trial.readings()).sum()
        };
        let turns = weighted(&|trial| trial.turn.degrees() * trial.turn.degrees());
        if turns <= 0.0 {
            return None;
        }
        let value = weighted(&|trial| trial.turn.degrees() * trial.change()) / turns;
        let left = weighted(&|trial| {
            let rest = trial.change() - value * trial.turn.degrees();
            rest * rest
        });
        let freedom = own.len().saturating_sub(1);
        // Where the trials scatter more than the gauge does, they say how far.
        let seen = if freedom > 0 {
            left / freedom as f64
        } else {
            0.0
        };
        Some(Self {
            value,
            variance: seen.max(single * single) / turns,
            trials: own.len(),
        })
    }

    /// Whether an amount may be worked out with it.
    pub(super) fn is_clear(&self) -> bool {
        self.value * self.value >= CLEAR * CLEAR * self.variance
    }

    /// With one more trial of the usual size.
    pub(super) fn with_one_more(&self) -> Self {
        let share = self.trials as f64 / (self.trials as f64 + 1.0);
        Self {
            variance: self.variance * share,
            ..*self
        }
    }

    pub(super) fn response<D: Measurand>(&self) -> Result<Response<D>, BalanceError> {
        Ok(Response {
            per_turn: D::from_number(360.0 * self.value)?,
            standard_uncertainty: Uncertainty::from_number(360.0 * libm::sqrt(self.variance))?,
            trials: self.trials,
        })
    }
}

/// What is wrong with the trials.
pub(super) fn problems<R: Shown>(
    linkage: &Linkage,
    trials: &[TrialTurn<R>],
    single: f64,
) -> Vec<BalanceError> {
    let mut problems = Vec::new();
    for (place, trial) in trials.iter().enumerate() {
        let joint = trial.joint;
        if !matches!(linkage.joined_by(joint), Some(JoinedBy::Screw { .. })) {
            problems.push(BalanceError::NoSuchScrew { joint });
        }
        if trial.turn.degrees().abs() <= 0.0 {
            problems.push(BalanceError::NoTurn { trial: place });
        }
    }
    if !problems.is_empty() {
        return problems;
    }
    for branch in linkage.branches() {
        let joint = branch.joint;
        let Some(JoinedBy::Screw { clockwise_opens }) = linkage.joined_by(joint) else {
            continue;
        };
        let slope = Slope::of(linkage, trials, joint, single).filter(Slope::is_clear);
        if let Some((stated, slope)) = clockwise_opens.zip(slope) {
            let seen = (slope.value > 0.0) == R::OPENING_RAISES;
            if seen != stated {
                problems.push(BalanceError::AgainstSense { joint });
            }
        }
    }
    problems
}
