//! The normal distribution, exact in both tails.

use super::tail_fit::mills;
use core::f64::consts::FRAC_1_SQRT_2;

/// `1 / sqrt(2 pi)`.
pub(super) const PEAK: f64 = 0.398_942_280_401_432_7;

/// The standard normal density.
pub(super) fn density(z: f64) -> f64 {
    PEAK * libm::exp(-0.5 * z * z)
}

/// The standard normal distribution function: the chance to lie below `z`.
///
/// Relative error about `2e-16 (1 + z^2)` below 0, and `2e-16` above.
///
/// # Source
/// `erfc(-z / sqrt(2)) / 2`, Abramowitz and Stegun 26.2.29.
///
/// ```
/// use lashwork::statistics::normal_cdf;
/// assert_eq!(normal_cdf(0.0), 0.5);
/// assert!((normal_cdf(-20.0) / 2.7536241186062337e-89 - 1.0).abs() < 1e-13);
/// ```
#[must_use]
pub fn normal_cdf(z: f64) -> f64 {
    normal_tail(-z)
}

/// The upper tail of the standard normal: the chance to lie above `z`, never as `1 - cdf`.
///
/// Relative error about `2e-16 (1 + z^2)` above 0, and `2e-16` below.
///
/// # Source
/// `erfc(z / sqrt(2)) / 2`, Abramowitz and Stegun 26.2.29.
///
/// ```
/// use lashwork::statistics::normal_tail;
/// assert!((normal_tail(8.0) / 6.2209605742717841e-16 - 1.0).abs() < 1e-13);
/// ```
#[must_use]
pub fn normal_tail(z: f64) -> f64 {
    0.5 * libm::erfc(z * FRAC_1_SQRT_2)
}

/// The standard normal quantile: the `z` below which lies the share `p`.
///
/// Absolute error about 1e-14 for `p` down to 1e-300; minus and plus infinity at 0 and 1, NaN
/// outside.
///
/// # Source
/// Start from Abramowitz and Stegun 26.2.23, then Newton steps on the logarithm of the tail.
///
/// ```
/// use lashwork::statistics::normal_quantile;
/// assert!((normal_quantile(0.95) - 1.6448536269514727).abs() < 1e-14);
/// assert!((normal_quantile(1e-300) + 37.047096299361199).abs() < 1e-12);
/// assert!(normal_quantile(1.5).is_nan());
/// ```
#[must_use]
pub fn normal_quantile(p: f64) -> f64 {
    if p > 0.5 && p <= 1.0 {
        upper_quantile(1.0 - p)
    } else if (0.0..=0.5).contains(&p) {
        -upper_quantile(p)
    } else {
        f64::NAN
    }
}

/// The `z >= 0` above which lies the share `p`, for `p` from 0 to one half.
fn upper_quantile(p: f64) -> f64 {
    if p <= 0.0 {
        return f64::INFINITY;
    }
    let t = libm::sqrt(-2.0 * libm::log(p));
    let above = 2.515_517 + t * (0.802_853 + t * 0.010_328);
    let below = 1.0 + t * (1.432_788 + t * (0.189_269 + t * 0.001_308));
    let mut z = t - above / below;
    for _ in 0..4 {
        z += libm::log(normal_tail(z) / p) * mills(z);
    }
    z
}

/// The guard factor for a band of width `T`: the reading must keep `g u` away from either limit to
/// be in the band with 95 % probability, for a normal estimate; `ratio` is `T/u`.
///
/// `None` below `T/u = 3.9199`: not even a reading at the centre of the band proves it. Absolute
/// error below 1e-12 except within 1e-6 of that edge.
///
/// # Source
/// ISO 14253-1:2017 asks for 95 % conformance probability; the factor solves
/// `Phi(T/u - g) - Phi(-g) = 0.95`. It tends to 1.6449 for a wide band.
///
/// ```
/// use lashwork::statistics::guard_factor;
/// assert!((guard_factor(4.0).unwrap() - 1.7962127205962).abs() < 1e-12);
/// assert_eq!(guard_factor(3.9), None);
/// ```
#[must_use]
pub fn guard_factor(ratio: f64) -> Option<f64> {
    const RISK: f64 = 0.05;
    let risk = |g: f64| normal_tail(g) + normal_tail(ratio - g);
    let (mut short, mut enough) = (0.0, 0.5 * ratio.min(80.0));
    if ratio.is_nan() || risk(enough) > RISK {
        return None;
    }
    for _ in 0..80 {
        let middle = 0.5 * (short + enough);
        if risk(middle) > RISK {
            short = middle;
        } else {
            enough = middle;
        }
    }
    Some(enough)
}
