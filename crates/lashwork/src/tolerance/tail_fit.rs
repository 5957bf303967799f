//! The integral of the normal tail over the normal density, as a fraction of two polynomials.
//!
//! With `M(x) = Q(x) / phi(x)` (Mills' ratio), the integral of the tail `Q` from `x` up is
//! `phi(x) R(x)` with `R(x) = 1 - x M(x)`. Far out `x M(x)` is nearly 1, so `R` is fitted and `M` comes
//! from it. `R` falls from 1 at 0, in the end as `1 / x^2`; the fraction does both exactly.
//!
//! # Source
//! Interpolated at the Chebyshev nodes of `(x - 4) / (x + 4)` in 60-digit arithmetic by
//! `tests/oracles/fit_tail.py`, relative error 1.7e-16 on the whole half-line. No coefficient is
//! negative, so nothing cancels. Limits: Abramowitz and Stegun 26.2.12.

use super::normal::{density, normal_tail};

/// Coefficients of the numerator: even powers of `x` from the zeroth up, and odd ones from the first.
const ABOVE_EVEN: [f64; 6] = [
    1.0,
    1.074_878_914_264_203_5,
    0.176_155_726_812_963_38,
    0.008_521_978_797_535_572,
    0.000_121_623_303_111_373,
    2.641_406_404_992_394_5e-7,
];
const ABOVE_ODD: [f64; 5] = [
    1.460_766_494_484_707_6,
    0.514_979_446_860_042_7,
    0.044_724_842_524_354_3,
    0.001_205_079_392_092_123_7,
    7.987_416_109_901_369e-6,
];
/// Of the denominator, likewise.
const BELOW_EVEN: [f64; 7] = [
    1.0,
    3.476_474_539_913_593_5,
    1.557_212_662_809_647_9,
    0.201_003_016_978_537_7,
    0.008_885_263_862_979_819,
    0.000_122_415_725_032_870_3,
    2.641_406_404_992_394_5e-7,
];
const BELOW_ODD: [f64; 6] = [
    2.714_080_631_800_207_8,
    2.784_670_572_608_527_5,
    0.642_258_982_683_018_6,
    0.048_292_156_208_947_75,
    0.001_229_041_640_422_053_4,
    7.987_416_109_901_369e-6,
];

/// From here outwards `R` is `1 / x^2` in every digit, and soon the powers would leave the range of
/// `f64`.
const FAR: f64 = 1e9;

fn polynomial<const N: usize>(coefficients: &[f64; N], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}

/// `R(x)` for `x >= 0`: the integral of the normal tail from `x` up over the density at `x`.
pub(super) fn ramp_over_density(x: f64) -> f64 {
    let square = x * x;
    if x >= FAR {
        return 1.0 / square;
    }
    // Four short chains instead of two long ones: the processor works on them side by side.
    let above = polynomial(&ABOVE_EVEN, square) + x * polynomial(&ABOVE_ODD, square);
    let below = polynomial(&BELOW_EVEN, square) + x * polynomial(&BELOW_ODD, square);
    above / below
}

/// From here outwards `R` is small enough for Mills' ratio to come from it without loss.
const DEEP: f64 = 2.0;

/// The normal tail over the normal density (Mills' ratio), without underflow.
pub(super) fn mills(x: f64) -> f64 {
    if x < DEEP {
        normal_tail(x) / density(x)
    } else {
        (1.0 - ramp_over_density(x)) / x
    }
}
