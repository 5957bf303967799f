//! How probable it is that all throttles lie within a limit of each other.

use crate::statistics::{mean, normal_cdf, normal_tail};
use alloc::vec::Vec;

/// Standard deviations beyond which nothing is left.
const REACH: f64 = 9.0;
/// Panels at most; there are two for each of the smallest standard deviations.
const PANELS: f64 = 4000.0;

/// The chance that the greatest and the least of independent normal quantities differ by no more than
/// `allowed`.
///
/// # Units
/// Means, standard deviations and limit in one unit; good to about 1e-9.
///
/// # Source
/// The density of the least one, times the chance that each other lies within the limit above it, summed over
/// which it is and integrated by Gauss and Legendre's rule.
///
/// ```
/// use lashwork::mixture::balance::spread_within;
/// // Two alike: their difference has the root of two times the standard deviation of each.
/// let p = spread_within(&[(20.0, 1.0), (20.0, 1.0)], 1.959_964 * 2_f64.sqrt());
/// assert!((p - 0.95).abs() < 1e-6);
/// ```
#[must_use]
pub fn spread_within(quantities: &[(f64, f64)], allowed: f64) -> f64 {
    let finest = quantities
        .iter()
        .map(|(_, sd)| *sd)
        .fold(f64::INFINITY, f64::min);
    let sum: f64 = quantities
        .iter()
        .enumerate()
        .map(|(least, (middle, sd))| {
            let others: Vec<(f64, f64)> = quantities
                .iter()
                .enumerate()
                .filter(|(place, _)| *place != least)
                .map(|(_, other)| *other)
                .collect();
            let at = |z: f64| {
                let from = middle + sd * z;
                let within = |(mean, sd): &(f64, f64)| {
                    between((from - mean) / sd, (from + allowed - mean) / sd)
                };
                let density = 0.398_942_280_401_432_7 * libm::exp(-0.5 * z * z);
                density * others.iter().map(within).product::<f64>()
            };
            let panels = libm::ceil((4.0 * REACH * sd / finest).clamp(4.0 * REACH, PANELS));
            let width = 2.0 * REACH / panels;
            let mut total = 0.0;
            let mut panel = 0.0;
            while panel < panels {
                let middle = -REACH + width * (panel + 0.5);
                total += width * mean(middle, 0.5 * width, at);
                panel += 1.0;
            }
            total
        })
        .sum();
    sum.clamp(0.0, 1.0)
}

/// The standard normal between two places, from the smaller tails.
fn between(low: f64, high: f64) -> f64 {
    if low > 0.0 {
        normal_tail(low) - normal_tail(high)
    } else {
        normal_cdf(high) - normal_cdf(low)
    }
}
