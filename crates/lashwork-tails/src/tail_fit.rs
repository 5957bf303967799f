//! The normal tail and its integral, deep down as well, as a fraction of two polynomials.
//!
//! With `M(x) = Q(x) / phi(x)` (Mills' ratio), the integral of the tail `Q` from `x` up is
//! `phi(x) R(x)` with `R(x) = 1 - x M(x)`. Far out `x M(x)` is nearly 1, so `R` is fitted and `M` comes
//! from it. `R` falls from 1 at 0, in the end as `1 / x^2`; the fraction does both exactly.
//!
//! # Source
//! Interpolated at the Chebyshev nodes of `(x - 4) / (x + 4)` in 60-digit arithmetic by
//! `tests/oracles/fit_tail.py`, relative error 1.7e-16 on the whole half-line. No coefficient is
//! negative, so nothing cancels. Limits: Abramowitz and Stegun 26.2.12.

#![expect(
    clippy::inline_always,
    reason = "what is called elsewhere cannot stand side by side in a register"
)]

use super::normal::{PEAK, density, normal_tail};

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

/// From here outwards `R` is nothing beside 1, and soon the powers would leave the range of `f64`.
const FAR: f64 = 1e9;

/// Lanes are computed side by side, in the same steps whatever their values: the compiler puts two into
/// one register. Terms are taken in pairs, so that the processor need not wait for one after the other.
#[inline(always)]
fn polynomial<const N: usize, const L: usize>(coefficients: &[f64; N], x: [f64; L]) -> [f64; L] {
    let square = x.map(|x| x * x);
    let pair = |pair: &[f64]| match pair {
        [constant, slope] => x.map(|x| constant + slope * x),
        [constant] => [*constant; L],
        _ => [0.0; L],
    };
    let mut pairs = coefficients.chunks(2).rev();
    let highest = pairs.next().map_or([0.0; L], pair);
    pairs.fold(highest, |sum, next| {
        let higher = lanes(sum, square, |sum, square| sum * square);
        lanes(higher, pair(next), |higher, pair| higher + pair)
    })
}

#[inline(always)]
fn lanes<const L: usize>(a: [f64; L], b: [f64; L], f: impl Fn(f64, f64) -> f64) -> [f64; L] {
    let mut found = a;
    for (to, b) in found.iter_mut().zip(b) {
        *to = f(*to, b);
    }
    found
}

/// A polynomial from its even powers and its odd ones, for the same reason.
#[inline(always)]
fn halves<const E: usize, const O: usize, const L: usize>(
    even: &[f64; E],
    odd: &[f64; O],
    x: [f64; L],
) -> [f64; L] {
    let square = x.map(|x| x * x);
    let odd = lanes(x, polynomial(odd, square), |x, sum| x * sum);
    lanes(polynomial(even, square), odd, |even, odd| even + odd)
}

/// `R(x)`: the integral of the normal tail from `x` up over the density at `x`, for `x` from 0 to
/// [`FAR`].
#[inline(always)]
fn fraction<const L: usize>(x: [f64; L]) -> [f64; L] {
    let above = halves(&ABOVE_EVEN, &ABOVE_ODD, x);
    let below = halves(&BELOW_EVEN, &BELOW_ODD, x);
    lanes(above, below, |above, below| above / below)
}

/// From here outwards the tail is below the smallest `f64` that keeps its digits.
pub(super) const NOTHING: f64 = 37.5;

/// `1 / n!`, even and odd.
const EXP_EVEN: [f64; 7] = [
    1.0,
    1.0 / 2.0,
    1.0 / 24.0,
    1.0 / 720.0,
    1.0 / 40_320.0,
    1.0 / 3_628_800.0,
    1.0 / 479_001_600.0,
];
const EXP_ODD: [f64; 7] = [
    1.0,
    1.0 / 6.0,
    1.0 / 120.0,
    1.0 / 5_040.0,
    1.0 / 362_880.0,
    1.0 / 39_916_800.0,
    1.0 / 6_227_020_800.0,
];
/// The natural logarithm of 2 in two parts; the first has zeros at its end, so that a thousand times it
/// is exact.
const LN_2_HIGH: f64 = 6.931_471_803_691_238e-1;
const LN_2_LOW: f64 = 1.908_214_929_270_587_7e-10;
/// Added to a number below 2^51 it leaves the nearest whole one in the last bits.
const WHOLE: f64 = 6_755_399_441_055_744.0;

/// The normal density for `x` from 0 to [`NOTHING`], relative error about `2e-16 (1 + x^2)`.
///
/// With `x^2 / 2 = k ln 2 - r` it is `2^-k e^r`, and `e^r` a Taylor series, because `r` is at most half
/// of `ln 2`.
#[inline(always)]
fn bell<const L: usize>(x: [f64; L]) -> [f64; L] {
    let half_square = x.map(|x| 0.5 * x * x);
    let shifted = half_square.map(|y| y * core::f64::consts::LOG2_E + WHOLE);
    let count = shifted.map(|shifted| shifted - WHOLE);
    let high = lanes(count, half_square, |k, y| k * LN_2_HIGH - y);
    let rest = lanes(high, count, |high, k| high + k * LN_2_LOW);
    let series = halves(&EXP_EVEN, &EXP_ODD, rest);
    lanes(series, shifted, |series, shifted| {
        // The exponent of 2^-k, put together from the bits of the number.
        let power = f64::from_bits((1023_u64 << 52).wrapping_sub(shifted.to_bits() << 52));
        PEAK * series * power
    })
}

/// `G(z)`: the integral of the normal distribution function up to `z`, for several at once.
/// `G(-x) = phi(x) R(x)`, and `G(z) = z + G(-z)`.
#[inline(always)]
pub(super) fn ramps<const L: usize>(z: [f64; L]) -> [f64; L] {
    let depth = z.map(|z| if z.abs() < NOTHING { z.abs() } else { NOTHING });
    let tail = lanes(bell(depth), fraction(depth), |bell, fraction| {
        bell * fraction
    });
    lanes(z, tail, |z, tail| {
        let tail = if z.abs() < NOTHING { tail } else { 0.0 };
        if z > 0.0 { z + tail } else { tail }
    })
}

/// From here outwards `R` is small enough for Mills' ratio to come from it without loss.
const DEEP: f64 = 2.0;

/// The normal tail over the normal density (Mills' ratio), without underflow.
///
/// ```
/// use lashwork_tails::mills;
/// assert!((mills(0.0) - 1.253_314_137_315_500_3).abs() < 1e-15);
/// ```
#[must_use]
pub fn mills(x: f64) -> f64 {
    if x < DEEP {
        normal_tail(x) / density(x)
    } else {
        let [ratio] = fraction([x.min(FAR)]);
        (1.0 - ratio) / x
    }
}
