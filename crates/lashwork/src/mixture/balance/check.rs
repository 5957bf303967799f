//! Which screw, which way, how far, and whether all is within the limit.

use super::linkage::Branch;
use super::next::next_reading;
use super::readings::Levels;
use super::response::{self, Slope};
use super::{
    BalanceAnswer, BalanceAssumption, BalanceError, JoinedBy, Linkage, Move, RigidDifference,
    Shown, ThrottleReading, ThrottleStand, TrialTurn, Turn, Way, spread_within,
};
use crate::quantity::{AbsolutePressure, QuantityError, ScrewAngle};
use crate::statistics::normal_cdf;
use crate::tolerance::{
    DecisionRule, Estimate, HasLimits, Judgement, Limits, Measurand, Uncertainty, judge,
    judge_known, wider,
};
use alloc::vec::Vec;

/// The standard atmosphere at sea level, in kilopascals.
const STANDARD: f64 = 101.325;

/// The air around where none is stated.
pub(crate) fn standard_ambient() -> Result<AbsolutePressure, QuantityError> {
    AbsolutePressure::from_kilopascals(STANDARD)
}

/// What is asked: readings of all throttles at one speed of the engine.
#[derive(Clone, Debug, PartialEq)]
pub struct BalanceCheck<R: Shown> {
    /// What was read, one list a throttle.
    pub readings: Vec<ThrottleReading<R>>,
    /// Standard deviation of a single reading; from repeated readings if not stated.
    pub scatter: Option<Uncertainty<R>>,
    /// Standard deviation from gauge to gauge, where each throttle has its own; none if one gauge was moved.
    pub between_gauges: Option<Uncertainty<R>>,
    /// Turns that were tried.
    pub trials: Vec<TrialTurn<R>>,
    /// By how much the greatest may be over the least.
    pub allowed: Option<R::Difference>,
    /// The rule it is judged by; simple acceptance if none is stated.
    pub rule: Option<DecisionRule>,
    /// The pressure of the air around.
    pub ambient: Option<AbsolutePressure>,
}

/// A change that a screw has to make, in the unit of the readings.
pub(super) struct Change {
    pub(super) joint: usize,
    pub(super) value: f64,
    pub(super) variance: f64,
}

/// What each screw has to do: bring the mean of its group to that of the group before it.
pub(super) fn needed(linkage: &Linkage, means: &[f64], variances: &[f64]) -> Vec<Change> {
    let groups = linkage.groups();
    let of = |throttle: usize| -> (f64, f64) {
        let group = groups.get(throttle);
        let (mut weight, mut sum) = (0.0, 0.0);
        for ((own, mean), variance) in groups.iter().zip(means).zip(variances) {
            if Some(own) == group {
                weight += 1.0 / variance;
                sum += mean / variance;
            }
        }
        (sum / weight, 1.0 / weight)
    };
    let screws = linkage.branches().iter().filter(|branch| {
        let by = linkage.joined_by(branch.joint);
        matches!(by, Some(JoinedBy::Screw { .. }))
    });
    screws
        .map(|branch| {
            let (near, far) = (of(branch.near), of(branch.far));
            Change {
                joint: branch.joint,
                value: near.0 - far.0,
                variance: near.1 + far.1,
            }
        })
        .collect()
}

/// The variance of the turn that makes a change, in degrees squared (JCGM 100:2008, 5.1.2).
pub(super) fn turn_variance(change: &Change, slope: &Slope) -> f64 {
    let turn = change.value / slope.value;
    (change.variance + turn * turn * slope.variance) / (slope.value * slope.value)
}

impl<R: Shown> BalanceCheck<R> {
    /// Works out what is asked.
    ///
    /// # Errors
    /// Every problem found: a throttle without a reading or with two lists, vacuum above the pressure of the
    /// air, no scatter, a trial of what is no screw or of no turn, trials against the stated sense, an allowed
    /// difference that is none.
    ///
    /// ```
    /// use lashwork::mixture::balance::{
    ///     BalanceCheck, Joint, Linkage, ThrottleReading, TrialTurn, Way,
    /// };
    /// use lashwork::quantity::{PressureDifference, ScrewAngle, Vacuum};
    /// use lashwork::tolerance::Uncertainty;
    /// # fn example() -> Result<(), Box<dyn std::error::Error>> {
    /// let vacuum = |mmhg| Vacuum::from_number(mmhg, "mmHg");
    /// let pair = Linkage::new(2, &[0], &[Joint::screw(0, 1)]).map_err(|p| format!("{p:?}"))?;
    /// let check = BalanceCheck {
    ///     readings: vec![
    ///         ThrottleReading { throttle: 0, shown: vec![vacuum(200.0)?] },
    ///         ThrottleReading { throttle: 1, shown: vec![vacuum(230.0)?] },
    ///     ],
    ///     scatter: Some(Uncertainty::from_number(0.3)?),
    ///     between_gauges: None,
    ///     // A quarter turn clockwise lowered it by 20 mmHg.
    ///     trials: vec![TrialTurn {
    ///         joint: 0,
    ///         turn: ScrewAngle::from_degrees(90.0)?,
    ///         before: vacuum(230.0)?,
    ///         after: vacuum(210.0)?,
    ///         unmoved: None,
    ///     }],
    ///     allowed: Some(PressureDifference::parse("20 mmHg")?),
    ///     rule: None,
    ///     ambient: None,
    /// };
    /// let answer = check.worked_out(&pair).map_err(|p| format!("{p:?}"))?;
    /// let first = &answer.moves[0];
    /// assert_eq!((first.way, first.clockwise), (Way::Open, Some(true)));
    /// assert!((first.turn.ok_or("clear")?.turn.degrees() - 135.0).abs() < 1e-9);
    /// # Ok(())
    /// # }
    /// # example().unwrap();
    /// ```
    pub fn worked_out(&self, linkage: &Linkage) -> Result<BalanceAnswer<R>, Vec<BalanceError>> {
        let ambient = match self.ambient {
            Some(ambient) => ambient,
            None => standard_ambient().map_err(one)?,
        };
        let levels = Levels::of(
            linkage,
            &self.readings,
            self.scatter,
            self.between_gauges,
            ambient,
        )?;
        let mut problems = response::problems(linkage, &self.trials, levels.single);
        let allowed = self.allowed.map(Measurand::number);
        if let Some(got) = allowed.filter(|allowed| *allowed <= 0.0) {
            problems.push(BalanceError::Allowed { got });
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        self.answer(linkage, &levels).map_err(one)
    }

    /// The mean of what each throttle showed so far, none where it was not read: before there is enough to work
    /// anything out.
    ///
    /// # Errors
    /// [`BalanceError::Quantity`] if a mean cannot be written, which no readings bring about.
    ///
    /// ```
    /// use lashwork::mixture::balance::{BalanceCheck, ThrottleReading};
    /// use lashwork::quantity::Vacuum;
    /// let kpa = |shown: f64| Vacuum::from_number(shown, "kPa");
    /// let check = BalanceCheck {
    ///     readings: vec![ThrottleReading { throttle: 1, shown: vec![kpa(20.0)?, kpa(22.0)?] }],
    ///     scatter: None, between_gauges: None, trials: Vec::new(), allowed: None, rule: None, ambient: None,
    /// };
    /// assert_eq!(check.means(2)?, [None, Some(kpa(21.0)?)]);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn means(&self, count: usize) -> Result<Vec<Option<R>>, BalanceError> {
        let mean = |throttle: usize| {
            let of = self.readings.iter().filter(|r| r.throttle == throttle);
            let shown: Vec<f64> = of
                .flat_map(|r| r.shown.iter())
                .map(|v| v.number())
                .collect();
            match shown.len() {
                0 => Ok(None),
                times => Ok(Some(R::from_number(
                    shown.iter().sum::<f64>() / times as f64,
                )?)),
            }
        };
        (0..count).map(mean).collect()
    }

    fn answer(&self, linkage: &Linkage, levels: &Levels) -> Result<BalanceAnswer<R>, BalanceError> {
        let variances = levels.variances();
        let few = wider(levels.freedom);
        let rule = self.rule.unwrap_or(R::Difference::USUAL_RULE);
        let judged = |value: f64, u: f64| -> Result<Option<Judgement>, BalanceError> {
            let Some(allowed) = self.allowed else {
                return Ok(None);
            };
            let below = R::Difference::from_number(-allowed.number())?;
            let limits = Limits::between(below, allowed)?;
            let value = R::Difference::from_number(value)?;
            let u = Uncertainty::from_number(u * few)?;
            let estimate = Estimate::between(value, value, u)?;
            Ok(Some(judge(&estimate, &limits, &rule)))
        };
        let at = |list: &[f64], place: usize| list.get(place).copied().unwrap_or(0.0);
        let zero = linkage.reference();
        let mut throttles = Vec::new();
        for throttle in 0..linkage.count() {
            let (mean, variance) = (at(&levels.mean, throttle), at(&variances, throttle));
            let over = mean - at(&levels.mean, zero);
            let is_reference = throttle == zero;
            let u = if is_reference {
                0.0
            } else {
                libm::sqrt(variance + at(&variances, zero))
            };
            throttles.push(ThrottleStand {
                throttle,
                reading: R::from_number(mean)?,
                standard_uncertainty: Uncertainty::from_number(libm::sqrt(variance))?,
                over_reference: R::Difference::from_number(over)?,
                over_reference_uncertainty: Uncertainty::from_number(u)?,
                judgement: if is_reference { None } else { judged(over, u)? },
            });
        }
        let slopes = self.slopes(linkage, levels.single);
        let mut moves = Vec::new();
        for change in needed(linkage, &levels.mean, &variances) {
            let branch = linkage.branches().iter().find(|b| b.joint == change.joint);
            if let Some(branch) = branch {
                moves.push(one_move::<R>(linkage, branch, &change, &slopes, few)?);
            }
        }
        let mut rigid = Vec::new();
        for branch in linkage.branches() {
            if linkage.joined_by(branch.joint) == Some(JoinedBy::Rigidly) {
                let over = at(&levels.mean, branch.far) - at(&levels.mean, branch.near);
                let u = libm::sqrt(at(&variances, branch.far) + at(&variances, branch.near));
                rigid.push(RigidDifference {
                    joint: branch.joint,
                    difference: R::Difference::from_number(over)?,
                    standard_uncertainty: Uncertainty::from_number(u)?,
                    judgement: judged(over, u)?,
                });
            }
        }
        let most = levels
            .mean
            .iter()
            .copied()
            .fold(f64::NEG_INFINITY, f64::max);
        let least = levels.mean.iter().copied().fold(f64::INFINITY, f64::min);
        let judgement = self.allowed.map(|allowed| {
            let known = levels.mean.iter().zip(&variances);
            let known: Vec<(f64, f64)> = known
                .map(|(mean, v)| (*mean, few * libm::sqrt(*v)))
                .collect();
            let within = spread_within(&known, allowed.number());
            judge_known((0.0, within, 1.0 - within), &rule)
        });
        Ok(BalanceAnswer {
            throttles,
            moves,
            rigid,
            spread: R::Difference::from_number(most - least)?,
            judgement,
            next: next_reading(linkage, levels, &slopes),
            scatter: levels.scatter()?,
            assumptions: self.assumptions(linkage, levels),
        })
    }

    /// The slope of each screw that was tried, or of all where they are alike.
    fn slopes(&self, linkage: &Linkage, single: f64) -> Vec<(usize, Slope)> {
        let screws = linkage.branches().iter().filter_map(|branch| {
            let by = linkage.joined_by(branch.joint);
            matches!(by, Some(JoinedBy::Screw { .. })).then_some(branch.joint)
        });
        screws
            .filter_map(|joint| Some((joint, Slope::of(linkage, &self.trials, joint, single)?)))
            .collect()
    }

    fn assumptions(&self, linkage: &Linkage, levels: &Levels) -> Vec<BalanceAssumption> {
        let is_rigid = |joint: &super::Joint| joint.by == JoinedBy::Rigidly;
        let moves_more = |branch: &Branch| branch.beyond.len() > 1;
        let all = [
            (
                levels.freedom.is_some(),
                BalanceAssumption::ScatterFromReadings,
            ),
            (self.between_gauges.is_none(), BalanceAssumption::OneGauge),
            (self.ambient.is_none(), BalanceAssumption::AmbientAssumed),
            (
                linkage.branches().iter().any(moves_more),
                BalanceAssumption::BeyondAlike,
            ),
            (linkage.are_alike(), BalanceAssumption::ScrewsAlike),
            (
                response::is_sense_of_others(linkage, &self.trials, levels.single),
                BalanceAssumption::SenseOfOthers,
            ),
            (!self.trials.is_empty(), BalanceAssumption::StraightLine),
            (
                linkage.joints().iter().any(is_rigid),
                BalanceAssumption::ShaftsAlike,
            ),
        ];
        let taken = all.into_iter().filter(|(taken, _)| *taken);
        taken.map(|(_, assumption)| assumption).collect()
    }
}

/// What one screw has to do.
fn one_move<R: Shown>(
    linkage: &Linkage,
    branch: &Branch,
    change: &Change,
    slopes: &[(usize, Slope)],
    few: f64,
) -> Result<Move<R::Difference>, BalanceError> {
    let u = libm::sqrt(change.variance);
    let way = if change.value.abs() <= 0.0 {
        Way::Leave
    } else if (change.value > 0.0) == R::OPENING_RAISES {
        Way::Open
    } else {
        Way::Close
    };
    let slope = slopes.iter().find(|(joint, _)| *joint == branch.joint);
    let slope = slope.map(|(_, slope)| slope);
    let clear = slope.filter(|slope| slope.is_clear());
    let turn = match clear {
        Some(slope) => Some(Turn {
            turn: ScrewAngle::from_degrees(change.value / slope.value)?,
            standard_uncertainty: libm::sqrt(turn_variance(change, slope)),
        }),
        None => None,
    };
    let stated = match linkage.joined_by(branch.joint) {
        Some(JoinedBy::Screw { clockwise_opens }) => clockwise_opens,
        _ => None,
    };
    let clockwise = match (way, turn) {
        (Way::Leave, _) => None,
        (_, Some(turn)) => Some(turn.turn.degrees() > 0.0),
        (way, None) => stated.map(|opens| opens == (way == Way::Open)),
    };
    Ok(Move {
        joint: branch.joint,
        to_match: branch.near,
        beyond: branch.beyond.clone(),
        change: R::Difference::from_number(change.value)?,
        standard_uncertainty: Uncertainty::from_number(u)?,
        way,
        way_right: normal_cdf(change.value.abs() / (u * few)),
        clockwise,
        turn,
        response: match slope {
            Some(slope) => Some(slope.response()?),
            None => None,
        },
    })
}

fn one<E: Into<BalanceError>>(problem: E) -> Vec<BalanceError> {
    alloc::vec![problem.into()]
}
