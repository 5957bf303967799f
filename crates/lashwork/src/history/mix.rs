//! A distribution that is a weighted sum of normal ones.

use crate::statistics::{normal_cdf, normal_tail};
use alloc::vec::Vec;

/// Halvings of the interval in which a quantile is looked for.
const HALVINGS: usize = 90;
/// Standard deviations beyond which nothing lies.
const FAR: f64 = 39.0;

/// Weight, mean and standard deviation of each part; weights add to one.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Mix {
    pub(super) parts: Vec<(f64, f64, f64)>,
}

impl Mix {
    pub(super) fn below(&self, value: f64) -> f64 {
        self.sum(|mean, sd| normal_cdf((value - mean) / sd))
    }

    pub(super) fn above(&self, value: f64) -> f64 {
        self.sum(|mean, sd| normal_tail((value - mean) / sd))
    }

    /// The chance to lie below an independent other.
    pub(super) fn chance_below(&self, other: &Self) -> f64 {
        let below = |mean: f64, sd: f64| {
            other.sum(|others, its| normal_cdf((others - mean) / libm::hypot(sd, its)))
        };
        self.sum(below)
    }

    pub(super) fn mean(&self) -> f64 {
        self.sum(|mean, _| mean)
    }

    pub(super) fn sd(&self) -> f64 {
        let middle = self.mean();
        libm::sqrt(self.sum(|mean, sd| sd * sd + (mean - middle) * (mean - middle)))
    }

    fn sum(&self, f: impl Fn(f64, f64) -> f64) -> f64 {
        let parts = self.parts.iter();
        parts.map(|(weight, mean, sd)| weight * f(*mean, *sd)).sum()
    }

    /// The value below which a share lies.
    pub(super) fn quantile(&self, share: f64) -> f64 {
        let ends = self.parts.iter().fold(
            (f64::INFINITY, f64::NEG_INFINITY),
            |(low, high), (_, mean, sd)| (low.min(mean - FAR * sd), high.max(mean + FAR * sd)),
        );
        let (mut low, mut high) = ends;
        for _ in 0..HALVINGS {
            let middle = low + 0.5 * (high - low);
            let is_short = if share <= 0.5 {
                self.below(middle) < share
            } else {
                self.above(middle) > 1.0 - share
            };
            if is_short {
                low = middle;
            } else {
                high = middle;
            }
        }
        low + 0.5 * (high - low)
    }
}
