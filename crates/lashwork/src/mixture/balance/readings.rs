//! Readings of a pulsing gauge: their means, and how far single ones scatter.

use super::{BalanceError, Linkage, Shown};
use crate::quantity::AbsolutePressure;
use crate::tolerance::Uncertainty;
use alloc::vec::Vec;
use core::f64::consts::SQRT_2;
use serde::Serialize;

/// What a gauge showed at one throttle, one value for each time somebody looked.
#[derive(Clone, Debug, PartialEq)]
pub struct ThrottleReading<R> {
    /// Which throttle, from 0.
    pub throttle: usize,
    /// What it showed, at one speed of the engine.
    pub shown: Vec<R>,
}

/// How far single readings scatter.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Scatter<R: Shown> {
    /// Standard deviation of a single reading.
    pub single: Uncertainty<R>,
    /// On how many repeated readings it rests; none if it was stated.
    pub degrees_of_freedom: Option<f64>,
}

/// The standard deviation of one look at a needle that swings evenly from one value to the other and back.
///
/// # Errors
/// [`BalanceError::Tolerance`] if it is more than a reading can be uncertain by.
///
/// # Source
/// JCGM 101:2008, 6.4.6.4: arc sine distribution, half the swing over the root of two.
///
/// ```
/// use lashwork::mixture::balance::scatter_of_swing;
/// use lashwork::quantity::Vacuum;
/// let u = scatter_of_swing(Vacuum::parse("180 mmHg")?, Vacuum::parse("200 mmHg")?)?;
/// assert!((u.number() - 0.9427).abs() < 1e-4);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn scatter_of_swing<R: Shown>(one: R, other: R) -> Result<Uncertainty<R>, BalanceError> {
    let half = 0.5 * (one.number() - other.number()).abs();
    Ok(Uncertainty::from_number(half / SQRT_2)?)
}

/// Mean and variance of each throttle's readings, in their unit.
#[derive(Clone, Debug)]
pub(super) struct Levels {
    pub(super) mean: Vec<f64>,
    /// How often each was read.
    pub(super) times: Vec<usize>,
    pub(super) single: f64,
    pub(super) freedom: Option<f64>,
    between_gauges: f64,
}

impl Levels {
    /// Of one list of readings a throttle.
    pub(super) fn of<R: Shown>(
        linkage: &Linkage,
        readings: &[ThrottleReading<R>],
        stated: Option<Uncertainty<R>>,
        between_gauges: Option<Uncertainty<R>>,
        ambient: AbsolutePressure,
    ) -> Result<Self, Vec<BalanceError>> {
        let problems = problems(linkage, readings, ambient);
        if !problems.is_empty() {
            return Err(problems);
        }
        let own = |throttle: usize| {
            let of = readings.iter().filter(move |r| r.throttle == throttle);
            of.flat_map(|r| r.shown.iter().map(|value| value.number()))
        };
        let throttles = 0..linkage.count();
        let times: Vec<usize> = throttles.clone().map(|t| own(t).count()).collect();
        let mean: Vec<f64> = throttles
            .zip(&times)
            .map(|(t, times)| own(t).sum::<f64>() / *times as f64)
            .collect();
        let squares = mean.iter().enumerate().map(|(throttle, mean)| {
            own(throttle)
                .map(|value| (value - mean) * (value - mean))
                .sum::<f64>()
        });
        let squares: f64 = squares.sum();
        let freedom: usize = times.iter().map(|times| times - 1).sum();
        let pooled = (freedom > 0).then(|| libm::sqrt(squares / freedom as f64));
        let stated = stated.map(Uncertainty::number).filter(|s| *s > 0.0);
        let (single, freedom) = match (stated, pooled) {
            (Some(stated), pooled) => (stated.max(pooled.unwrap_or(0.0)), None),
            (None, Some(pooled)) if pooled > 0.0 => (pooled, Some(freedom as f64)),
            _ => return Err(alloc::vec![BalanceError::NoScatter]),
        };
        Ok(Self {
            mean,
            times,
            single,
            freedom,
            between_gauges: between_gauges.map_or(0.0, Uncertainty::number),
        })
    }

    /// The variance of the mean of so many readings.
    fn of_times(&self, times: usize) -> f64 {
        self.single * self.single / times as f64 + self.between_gauges * self.between_gauges
    }

    /// The variance of each throttle's mean.
    pub(super) fn variances(&self) -> Vec<f64> {
        self.times
            .iter()
            .map(|times| self.of_times(*times))
            .collect()
    }

    /// The same after one more reading of one throttle.
    pub(super) fn variances_after(&self, throttle: usize) -> Vec<f64> {
        let more = |(at, times): (usize, &usize)| times + usize::from(at == throttle);
        let times = self.times.iter().enumerate().map(more);
        times.map(|times| self.of_times(times)).collect()
    }

    pub(super) fn scatter<R: Shown>(&self) -> Result<Scatter<R>, BalanceError> {
        Ok(Scatter {
            single: Uncertainty::from_number(self.single)?,
            degrees_of_freedom: self.freedom,
        })
    }
}

fn problems<R: Shown>(
    linkage: &Linkage,
    readings: &[ThrottleReading<R>],
    ambient: AbsolutePressure,
) -> Vec<BalanceError> {
    let mut problems = Vec::new();
    let count = linkage.count();
    for (place, reading) in readings.iter().enumerate() {
        let throttle = reading.throttle;
        if throttle >= count {
            problems.push(BalanceError::NoSuchThrottle { throttle, count });
        }
        let mut before = readings.iter().take(place);
        if before.any(|other| other.throttle == throttle) {
            problems.push(BalanceError::ReadTwice { throttle });
        }
        if let Some(value) = reading.shown.iter().find(|v| v.is_beyond(ambient)) {
            problems.push(BalanceError::BeyondAmbient {
                throttle,
                shown: value.number(),
                ambient,
            });
        }
    }
    for throttle in 0..count {
        let is_its = |r: &&ThrottleReading<R>| r.throttle == throttle && !r.shown.is_empty();
        if !readings.iter().any(|reading| is_its(&reading)) {
            problems.push(BalanceError::NotRead { throttle });
        }
    }
    problems
}
