//! A distribution that is a weighted sum of normal ones.

use crate::statistics::{normal_cdf, normal_tail};
use alloc::vec::Vec;
use core::f64::consts::TAU;

/// Steps to a quantile at most; each that does not come twice as near is a halving of where it is looked for.
const STEPS: usize = 120;
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
    ///
    /// # Method
    /// Newton's, between ends that close in.
    pub(super) fn quantile(&self, share: f64) -> f64 {
        let ends = self.parts.iter().fold(
            (f64::INFINITY, f64::NEG_INFINITY),
            |(low, high), (_, mean, sd)| (low.min(mean - FAR * sd), high.max(mean + FAR * sd)),
        );
        let (mut low, mut high) = ends;
        let mut value = low + 0.5 * (high - low);
        // As near as the sum of the parts can tell.
        let (mut step, near) = (high - low, 16.0 * f64::EPSILON * share.min(1.0 - share));
        for _ in 0..STEPS {
            // By the smaller tail, which keeps its digits.
            let over = if share <= 0.5 {
                self.below(value) - share
            } else {
                (1.0 - share) - self.above(value)
            };
            if over < 0.0 {
                low = value;
            } else {
                high = value;
            }
            let newton = value - over / self.density(value);
            let moved = (newton - value).abs();
            if over.abs() <= near || moved <= f64::EPSILON * value.abs() {
                return value;
            }
            let next = if moved < 0.5 * step && newton > low && newton < high {
                newton
            } else {
                low + 0.5 * (high - low)
            };
            step = (next - value).abs();
            value = next;
        }
        value
    }

    fn density(&self, value: f64) -> f64 {
        self.sum(|mean, sd| {
            let z = (value - mean) / sd;
            libm::exp(-0.5 * z * z) / (sd * libm::sqrt(TAU))
        })
    }
}
