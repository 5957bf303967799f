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
    /// Of a screw by its own trials; where all are alike by those of any, with its own sense.
    pub(super) fn of<R: Shown>(
        linkage: &Linkage,
        trials: &[TrialTurn<R>],
        joint: usize,
        single: f64,
    ) -> Option<Self> {
        if !linkage.are_alike() {
            return Self::of_one(trials, joint, single);
        }
        let senses = Senses {
            linkage,
            trials,
            single,
        };
        let tried = trials.iter();
        let tried = tried.filter_map(|trial| Some((trial, senses.of(trial.joint)?)));
        let tried: Vec<(&TrialTurn<R>, f64)> = tried.collect();
        let alike = Self::through(&tried, single)?;
        Some(Self {
            value: senses.of(joint)? * alike.value,
            ..alike
        })
    }

    /// Of a screw by its own trials alone.
    fn of_one<R: Shown>(trials: &[TrialTurn<R>], joint: usize, single: f64) -> Option<Self> {
        let own = trials.iter().filter(|trial| trial.joint == joint);
        let own: Vec<(&TrialTurn<R>, f64)> = own.map(|trial| (trial, 1.0)).collect();
        Self::through(&own, single)
    }

    /// Through nought and trials, each turned over by the sense beside it.
    fn through<R: Shown>(trials: &[(&TrialTurn<R>, f64)], single: f64) -> Option<Self> {
        let weighted = |of: &dyn Fn(f64, f64) -> f64| -> f64 {
            let each = trials.iter().map(|(trial, sense)| {
                of(sense * trial.turn.degrees(), trial.change()) / trial.readings()
            });
            each.sum()
        };
        let turns = weighted(&|turn, _| turn * turn);
        if turns <= 0.0 {
            return None;
        }
        let value = weighted(&|turn, change| turn * change) / turns;
        let left = weighted(&|turn, change| {
            let rest = change - value * turn;
            rest * rest
        });
        let freedom = trials.len().saturating_sub(1);
        // Where the trials scatter more than the gauge does, they say how far.
        let seen = if freedom > 0 {
            left / freedom as f64
        } else {
            0.0
        };
        Some(Self {
            value,
            variance: seen.max(single * single) / turns,
            trials: trials.len(),
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

/// Which way the reading goes with a clockwise turn of each screw, 1 or -1, where all do alike much.
struct Senses<'t, R> {
    linkage: &'t Linkage,
    trials: &'t [TrialTurn<R>],
    single: f64,
}

impl<R: Shown> Senses<'_, R> {
    /// As stated, else as its own trials show.
    fn own(&self, joint: usize) -> Option<f64> {
        if let Some(opens) = stated(self.linkage, joint) {
            return Some(if opens == R::OPENING_RAISES {
                1.0
            } else {
                -1.0
            });
        }
        let seen = Slope::of_one(self.trials, joint, self.single).filter(Slope::is_clear);
        seen.map(|slope| 1_f64.copysign(slope.value))
    }

    /// That of all screws that were tried; `None` if two of them differ.
    fn tried(&self) -> Option<f64> {
        let mut tried = self.trials.iter().filter_map(|trial| self.own(trial.joint));
        let Some(first) = tried.next() else {
            // None of them is clear alone: all together may be.
            let all: Vec<(&TrialTurn<R>, f64)> = self.trials.iter().map(|it| (it, 1.0)).collect();
            return Slope::through(&all, self.single).map(|slope| 1_f64.copysign(slope.value));
        };
        tried
            .all(|other| other.total_cmp(&first).is_eq())
            .then_some(first)
    }

    fn of(&self, joint: usize) -> Option<f64> {
        self.own(joint).or_else(|| self.tried())
    }
}

/// Whether a screw has its sense from the trials of others: none is stated, and its own do not show it.
pub(super) fn is_sense_of_others<R: Shown>(
    linkage: &Linkage,
    trials: &[TrialTurn<R>],
    single: f64,
) -> bool {
    let senses = Senses {
        linkage,
        trials,
        single,
    };
    let is_screw = |joint: usize| matches!(linkage.joined_by(joint), Some(JoinedBy::Screw { .. }));
    let mut joints = linkage.branches().iter().map(|branch| branch.joint);
    linkage.are_alike()
        && joints.any(|joint| {
            is_screw(joint) && senses.own(joint).is_none() && senses.of(joint).is_some()
        })
}

/// Whether a screw opens what is beyond it when it is turned clockwise, if that is stated.
fn stated(linkage: &Linkage, joint: usize) -> Option<bool> {
    match linkage.joined_by(joint) {
        Some(JoinedBy::Screw { clockwise_opens }) => clockwise_opens,
        _ => None,
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
        let Some(stated) = stated(linkage, joint) else {
            continue;
        };
        // Alike or not, a screw that was not tried shows nothing against its sense.
        let Some(own) = Slope::of_one(trials, joint, single) else {
            continue;
        };
        let shown = [Some(own), Slope::of(linkage, trials, joint, single)];
        let mut clear = shown.iter().flatten().filter(|slope| slope.is_clear());
        if clear.any(|slope| ((slope.value > 0.0) == R::OPENING_RAISES) != stated) {
            problems.push(BalanceError::AgainstSense { joint });
        }
    }
    problems
}
