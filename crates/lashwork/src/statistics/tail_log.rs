//! Logarithms of normal probabilities, for chances too small for a number.
//!
//! A product of many small chances leaves the range of `f64` long before its logarithm does.

use core::f64::consts::TAU;
use lashwork_tails::{mills, normal_tail, phi_difference};

/// Below this a tail loses digits.
const SMALL: f64 = 1e-280;
/// A difference of two tails that is at least this share of the greater keeps twelve digits.
const SHARE: f64 = 1e-3;
/// From here outwards the logarithm is built from Mills' ratio.
const DEEP: f64 = 5.0;
/// An interval this short, in units in which the tail falls by its own size, has the chance that the
/// density in its middle says, but for a share of the square over 24.
const NARROW: f64 = 1e-5;

/// The natural logarithm of the standard normal density.
///
/// ```
/// use lashwork::statistics::ln_normal_density;
/// assert!((ln_normal_density(0.0) + 0.918_938_533_204_672_7).abs() < 1e-15);
/// ```
#[must_use]
pub fn ln_normal_density(z: f64) -> f64 {
    -0.5 * z * z - 0.5 * libm::log(TAU)
}

/// The natural logarithm of the upper tail of the standard normal: of the chance to lie above `z`.
///
/// Finite wherever `z * z` is. Relative error about 1e-14, absolute near `z = -infinity`.
///
/// # Source
/// Far out the density times Mills' ratio, Abramowitz and Stegun 26.2.14.
///
/// ```
/// use lashwork::statistics::ln_normal_tail;
/// assert!((ln_normal_tail(0.0) + core::f64::consts::LN_2).abs() < 1e-15);
/// // The tail itself is about 1e-2174 there, which no f64 holds.
/// assert!((ln_normal_tail(100.0) + 5_005.524_208_694_205).abs() < 1e-9);
/// ```
#[must_use]
pub fn ln_normal_tail(z: f64) -> f64 {
    if z < -DEEP {
        libm::log1p(-normal_tail(-z))
    } else if z < DEEP {
        libm::log(normal_tail(z))
    } else {
        ln_normal_density(z) + libm::log(mills(z))
    }
}

/// The natural logarithm of the chance of a standard normal to lie from `low` to `high`.
///
/// Minus infinity when `high` is not above `low`.
///
/// # Source
/// Difference of two tails, in the logarithm where the tails leave the range of numbers.
///
/// ```
/// use lashwork::statistics::{ln_normal_interval, ln_normal_tail};
/// assert!((ln_normal_interval(-1.0, 1.0) - 0.682_689_492_137_085_9_f64.ln()).abs() < 1e-14);
/// // Sixty standard deviations out, one wide: all but 1e-26 of the tail.
/// assert!((ln_normal_interval(60.0, 61.0) - ln_normal_tail(60.0)).abs() < 1e-9);
/// assert_eq!(ln_normal_interval(1.0, 1.0), f64::NEG_INFINITY);
/// ```
#[must_use]
pub fn ln_normal_interval(low: f64, high: f64) -> f64 {
    let width = high - low;
    if width.is_nan() || width <= 0.0 {
        return f64::NEG_INFINITY;
    }
    let (near, far) = if low + high >= 0.0 {
        (low, high)
    } else {
        (-high, -low)
    };
    let beyond = normal_tail(near);
    let between = beyond - normal_tail(far);
    if between > SMALL && between >= SHARE * beyond {
        return libm::log(between);
    }
    let chance = phi_difference(near, far, width);
    if chance > SMALL {
        return libm::log(chance);
    }
    let middle = near + 0.5 * width;
    if width * (1.0 + middle) <= NARROW {
        // The density hardly changes, and the tails differ in their last digits only.
        return ln_normal_density(middle) + libm::log(width);
    }
    let tail = ln_normal_tail(near);
    if tail == f64::NEG_INFINITY {
        return tail;
    }
    // The logarithms are large and alike, so their difference is not taken from them.
    let fall = libm::log(mills(far) / mills(near)) - width * middle;
    tail + libm::log(-libm::expm1(fall))
}
