//! How long parts last, from those that failed.

use super::{StatisticsError, straight_line};
use alloc::vec;
use alloc::vec::Vec;
use serde::Serialize;

/// Halvings of the interval in which a median rank is looked for.
const HALVINGS: u32 = 60;

/// A Weibull distribution of lives.
///
/// ```
/// use lashwork::statistics::Weibull;
/// let worn = Weibull { shape: 2.0, scale: 100.0 };
/// assert!((worn.life(0.5) - 100.0 * core::f64::consts::LN_2.sqrt()).abs() < 1e-9);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Weibull {
    /// Above 1 parts wear out, at 1 they fail by chance, below it they fail young.
    pub shape: f64,
    /// The life that 63.2 % do not reach.
    pub scale: f64,
}

impl Weibull {
    /// The life that a share has failed by: 0.1 for B10.
    #[must_use]
    pub fn life(&self, share: f64) -> f64 {
        self.scale * libm::pow(-libm::log1p(-share), 1.0 / self.shape)
    }
}

/// The same lives by each way of fitting; with few of them the ways differ by half, so that they stand side by
/// side.
///
/// ```
/// use lashwork::statistics::weibull;
/// let found = weibull(&[16.0, 34.0, 53.0, 75.0, 93.0, 120.0])?;
/// assert!((found.by_rank.shape - 1.43).abs() < 0.01);
/// assert!((found.likeliest.life(0.1) - 22.95).abs() < 0.01);
/// # Ok::<(), lashwork::statistics::StatisticsError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Lives {
    /// The line of median ranks against lives.
    pub by_rank: Weibull,
    /// The line of lives against median ranks.
    pub by_life: Weibull,
    /// The likeliest.
    pub likeliest: Weibull,
}

/// Fits lives of parts that all failed, in any order.
///
/// # Errors
/// [`StatisticsError::TooFewPoints`] below two; [`StatisticsError::Points`] unless all are above nought and
/// finite; [`StatisticsError::OnePlace`] if all are alike.
///
/// # Source
/// Median ranks are the medians of order statistics: beta distributions. Likelihood: the profile in the shape,
/// whose derivative falls, halved.
pub fn weibull(lives: &[f64]) -> Result<Lives, StatisticsError> {
    if !lives.iter().all(|life| *life > 0.0 && life.is_finite()) {
        return Err(StatisticsError::Points {
            problem: "a life is not above nought and finite",
        });
    }
    let mut logs: Vec<f64> = lives.iter().map(|life| libm::log(*life)).collect();
    logs.sort_by(f64::total_cmp);
    let count = logs.len();
    let ranks: Vec<f64> = (1..=count)
        .map(|order| libm::log(-libm::log1p(-median_rank(order, count))))
        .collect();
    let alike = vec![1.0; count];
    let by_rank = straight_line(&logs, &ranks, &alike)?;
    let by_life = straight_line(&ranks, &logs, &alike)?;
    Ok(Lives {
        by_rank: Weibull {
            shape: by_rank.slope,
            scale: libm::exp(-by_rank.intercept / by_rank.slope),
        },
        by_life: Weibull {
            shape: 1.0 / by_life.slope,
            scale: libm::exp(by_life.intercept),
        },
        likeliest: likeliest(&logs),
    })
}

/// The share that so many of so many lie below, as likely as not.
fn median_rank(order: usize, count: usize) -> f64 {
    // The chance that at least `order` of `count` lie below a share, as a sum of a binomial distribution.
    let reached = |share: f64| {
        let (p, q) = (libm::log(share), libm::log1p(-share));
        let mut choices = 0.0;
        let mut sum = 0.0;
        for failed in 0..=count {
            if failed > 0 {
                choices += libm::log((count + 1 - failed) as f64 / failed as f64);
            }
            if failed >= order {
                sum += libm::exp(choices + failed as f64 * p + (count - failed) as f64 * q);
            }
        }
        sum
    };
    halved(0.0, 1.0, |share| reached(share) < 0.5)
}

fn likeliest(logs: &[f64]) -> Weibull {
    let count = logs.len() as f64;
    let longest = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let mean = logs.iter().sum::<f64>() / count;
    // Relative to the longest, so that nothing overflows.
    let sums = |shape: f64| {
        logs.iter().fold((0.0, 0.0), |(plain, times), log| {
            let weight = libm::exp(shape * (log - longest));
            (plain + weight, times + weight * log)
        })
    };
    let is_low = |shape: f64| {
        let (plain, times) = sums(shape);
        1.0 / shape + mean - times / plain > 0.0
    };
    let mut high = 1.0;
    while is_low(high) && high < 1e12 {
        high *= 2.0;
    }
    let shape = halved(0.0, high, is_low);
    let (plain, _) = sums(shape);
    Weibull {
        shape,
        scale: libm::exp(longest + libm::log(plain / count) / shape),
    }
}

/// Where a condition that holds below ceases to.
fn halved(mut low: f64, mut high: f64, holds: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..HALVINGS {
        let middle = low + 0.5 * (high - low);
        if holds(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    low + 0.5 * (high - low)
}
