//! Printed rules side by side, each a verdict with its probability.
//!
//! # Method
//! A reading is normal about the pressure with the scatter of one reading. Over which of the cylinders is the
//! highest, and how high it is, one integral is taken (Gauss-Legendre over pieces of half a deviation). The
//! gauge's common error moves all cylinders alike: it drops out between cylinders and counts against a printed
//! least pressure.

use super::altitude::in_other_air;
use super::{CompressionError, CylinderReading};
use crate::engine::CylinderLabel;
use crate::quantity::{AbsolutePressure, GaugePressure, PressureDifference};
use crate::statistics::{mean, normal_cdf, normal_tail};
use crate::tolerance::{DecisionRule, Judgement, judge_known};
use alloc::vec::Vec;
use core::f64::consts::TAU;
use serde::Serialize;

/// Deviations over which is integrated either way, and pieces of it.
const REACH: f64 = 9.0;
const PIECES: u32 = 36;
/// Parts of the highest that a rule may ask for, in percent.
const PARTS: (f64, f64) = (50.0, 100.0);
/// Greatest difference and pressures that a rule may ask for, in kilopascals.
const DIFFERENCE: f64 = 1e3;
const MINIMUM: (f64, f64) = (100.0, 3e3);

/// A printed rule for cranking compression.
///
/// ```
/// use lashwork::condition::compression::CompressionRule;
/// use lashwork::quantity::{GaugePressure, PressureDifference};
/// let asks = [
///     CompressionRule::ratio(75.0)?,
///     CompressionRule::difference(PressureDifference::parse("14 psi")?)?,
///     CompressionRule::minimum(GaugePressure::parse("100 psi")?)?,
/// ];
/// assert!(CompressionRule::ratio(110.0).is_err());
/// # let _ = asks;
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum CompressionRule {
    /// The lowest at least so many percent of the highest.
    Ratio {
        /// Percent.
        percent: f64,
    },
    /// At most so much from the lowest to the highest.
    Difference {
        /// From lowest to highest.
        most: PressureDifference,
    },
    /// Every cylinder at least this, as printed for sea level.
    Minimum {
        /// As printed.
        least: GaugePressure,
    },
}

/// What a rule says.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RuleVerdict {
    /// The rule.
    pub rule: CompressionRule,
    /// The least a cylinder may show here, by the highest as it was read and the air of the place.
    pub limit: GaugePressure,
    /// The lowest cylinder as read.
    pub lowest: CylinderLabel,
    /// The engine: below if a cylinder is under the limit.
    pub engine: Judgement,
    /// Each cylinder, in the order of the readings.
    pub cylinders: Vec<Judgement>,
}

/// What is known of the gauge and the air when a rule is applied, in kilopascals.
#[derive(Clone, Copy)]
pub(super) struct Scatter {
    /// Of one reading.
    pub(super) repeat: f64,
    /// Common to all.
    pub(super) common: f64,
}

impl CompressionRule {
    /// The lowest at least so many percent of the highest.
    ///
    /// # Errors
    /// [`CompressionError::RatioRule`] outside 50 to 100 %.
    pub fn ratio(percent: f64) -> Result<Self, CompressionError> {
        if PARTS.0 <= percent && percent <= PARTS.1 {
            Ok(Self::Ratio { percent })
        } else {
            Err(CompressionError::RatioRule { got: percent })
        }
    }

    /// At most so much from the lowest to the highest.
    ///
    /// # Errors
    /// [`CompressionError::DifferenceRule`] if not above 0 and up to 1000 kPa.
    pub fn difference(most: PressureDifference) -> Result<Self, CompressionError> {
        let got = most.kilopascals();
        if got > 0.0 && got <= DIFFERENCE {
            Ok(Self::Difference { most })
        } else {
            Err(CompressionError::DifferenceRule { got })
        }
    }

    /// Every cylinder at least this, printed for sea level.
    ///
    /// # Errors
    /// [`CompressionError::MinimumRule`] outside 100 to 3000 kPa.
    pub fn minimum(least: GaugePressure) -> Result<Self, CompressionError> {
        let (min, max) = MINIMUM;
        let got = least.kilopascals();
        if min <= got && got <= max {
            Ok(Self::Minimum { least })
        } else {
            Err(CompressionError::MinimumRule { got, min, max })
        }
    }

    /// Judges dry readings in the air of the place.
    pub(super) fn judged(
        self,
        readings: &[CylinderReading],
        scatter: Scatter,
        air: AbsolutePressure,
    ) -> Result<RuleVerdict, CompressionError> {
        let shown: Vec<f64> = readings.iter().map(|r| r.dry.kilopascals()).collect();
        let simple = DecisionRule::simple();
        let judged = |p: f64| judge_known((1.0 - p, p, 0.0), &simple);
        let (limit, engine, cylinders) = match self {
            Self::Ratio { percent } => {
                between(&shown, scatter.repeat, &|top| top * percent / 100.0)?
            }
            Self::Difference { most } => {
                between(&shown, scatter.repeat, &|top| top - most.kilopascals())?
            }
            Self::Minimum { least } => {
                let sea = AbsolutePressure::from_kilopascals(101.325)?;
                let limit = in_other_air(least, sea, air)?.kilopascals();
                let both = libm::hypot(scatter.repeat, scatter.common);
                let one = |x: &f64| normal_cdf((x - limit) / both);
                (
                    limit,
                    all_over(&shown, scatter, limit),
                    shown.iter().map(one).collect::<Vec<f64>>(),
                )
            }
        };
        let lowest = readings.iter().min_by(|a, b| {
            let (a, b) = (a.dry.kilopascals(), b.dry.kilopascals());
            a.total_cmp(&b)
        });
        let lowest = lowest.ok_or(CompressionError::NoReading)?;
        Ok(RuleVerdict {
            rule: self,
            limit: GaugePressure::from_kilopascals(limit)?,
            lowest: lowest.cylinder.clone(),
            engine: judged(engine),
            cylinders: cylinders.into_iter().map(judged).collect(),
        })
    }
}

/// Limit by the highest as read, and the chances that the engine and each cylinder are within.
fn between(
    shown: &[f64],
    u: f64,
    asked: &dyn Fn(f64) -> f64,
) -> Result<(f64, f64, Vec<f64>), CompressionError> {
    if shown.len() < 2 {
        return Err(CompressionError::OneReading);
    }
    let highest = shown.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let one = |i: usize| under_the_others(shown, i, u, asked);
    let cylinders = (0..shown.len()).map(one).collect();
    Ok((asked(highest), all_within(shown, u, asked), cylinders))
}

/// The integral of `f` over the standard normal.
fn over_normal(f: impl Fn(f64) -> f64) -> f64 {
    let half = REACH / f64::from(PIECES);
    let piece = |i: u32| {
        let middle = half * (2.0 * f64::from(i) + 1.0) - REACH;
        let density = |z: f64| libm::exp(-0.5 * z * z) / libm::sqrt(TAU) * f(z);
        2.0 * half * mean(middle, half, density)
    };
    (0..PIECES).map(piece).sum::<f64>().clamp(0.0, 1.0)
}

/// The chance that no cylinder lies under what the highest asks of it.
fn all_within(shown: &[f64], u: f64, asked: &dyn Fn(f64) -> f64) -> f64 {
    let highest_is = |k: usize, own: f64| {
        over_normal(|z| {
            let top = own + u * z;
            let others = shown.iter().enumerate().filter(|(j, _)| *j != k);
            others.fold(1.0, |p, (_, x)| {
                let (from, to) = ((asked(top) - x) / u, (top - x) / u);
                p * (normal_tail(from) - normal_tail(to)).max(0.0)
            })
        })
    };
    let each = shown.iter().enumerate();
    each.map(|(k, own)| highest_is(k, *own))
        .sum::<f64>()
        .clamp(0.0, 1.0)
}

/// The chance that one cylinder is not under what any other asks of it.
fn under_the_others(shown: &[f64], i: usize, u: f64, asked: &dyn Fn(f64) -> f64) -> f64 {
    let own = shown.get(i).copied().unwrap_or(0.0);
    // Both rules ask for a line of the highest: slope and offset give it back.
    let offset = asked(0.0);
    let slope = asked(1.0) - offset;
    over_normal(|z| {
        let top = (own + u * z - offset) / slope;
        let others = shown.iter().enumerate().filter(|(j, _)| *j != i);
        others.fold(1.0, |p, (_, x)| p * normal_cdf((top - x) / u))
    })
}

/// The chance that all lie over a limit, with an error common to all.
fn all_over(shown: &[f64], scatter: Scatter, limit: f64) -> f64 {
    over_normal(|z| {
        let off = scatter.common * z - limit;
        shown
            .iter()
            .fold(1.0, |p, x| p * normal_cdf((x + off) / scatter.repeat))
    })
}
