//! A rectangle convolved with a normal: probabilities below, inside and above two limits.
//!
//! With `G(z) = z Phi(z) + phi(z)`, the integral of `Phi`, the chance to lie below `t` is
//! `u/(b-a) [G((t-a)/u) - G((t-b)/u)]`. As written this cancels in three places, so each is
//! computed another way:
//! - below the mean, where `z Phi(z)` and `phi(z)` cancel: `G(-x) = phi(x) R(x)` with a fraction of
//!   two polynomials without negative terms for `R`;
//! - narrow rectangle, where both `G` agree: the mean of `Phi` by ten-point Gauss-Legendre;
//! - narrow band, where both cumulative values agree: the mean of the density, likewise.
//!
//! # Source
//! Closed form: integration by parts. Nodes and weights of Gauss-Legendre: Abramowitz and Stegun,
//! table 25.4.

#![expect(
    clippy::inline_always,
    reason = "what is called elsewhere cannot stand side by side in a register"
)]

use super::normal::{density, normal_cdf, normal_tail};
use super::tail_fit::{NOTHING, ramps};

/// Positive nodes of ten-point Gauss-Legendre with their weights.
const GAUSS: [(f64, f64); 5] = [
    (0.148_874_338_981_631_22, 0.295_524_224_714_752_87),
    (0.433_395_394_129_247_2, 0.269_266_719_309_996_35),
    (0.679_409_568_299_024_4, 0.219_086_362_515_982_04),
    (0.865_063_366_688_984_5, 0.149_451_349_150_580_6),
    (0.973_906_528_517_171_7, 0.066_671_344_308_688_14),
];

/// From here outwards `G` on one side is less than half a unit in the last place of `G` nine or more
/// nearer, and of 1 on the other side.
const NEGLIGIBLE: f64 = 9.0;

/// Mean of a smooth function over an interval.
///
/// ```
/// use lashwork_tails::mean;
/// assert!((mean(1.0, 1.0, |x| x * x) - 4.0 / 3.0).abs() < 1e-15);
/// ```
#[must_use]
pub fn mean(middle: f64, half: f64, f: impl Fn(f64) -> f64) -> f64 {
    GAUSS.iter().fold(0.0, |sum, (node, weight)| {
        sum + 0.5 * weight * (f(middle - half * node) + f(middle + half * node))
    })
}

/// Whether a stretch of so many standard deviations, seen from so far out, is short against the
/// scale on which the tail falls.
#[inline(always)]
fn narrow(width: f64, depth: f64) -> bool {
    width * (1.0 + depth) <= 1.0
}

/// `Phi(p) - Phi(q)` for `p - q = width >= 0`.
///
/// ```
/// use lashwork_tails::{normal_cdf, phi_difference};
/// assert!((phi_difference(-1.0, 1.0, 2.0) - (normal_cdf(1.0) - normal_cdf(-1.0))).abs() < 1e-15);
/// ```
#[must_use]
pub fn phi_difference(q: f64, p: f64, width: f64) -> f64 {
    if narrow(width, q.abs().max(p.abs())) {
        width * mean(q + 0.5 * width, 0.5 * width, density)
    } else if p + q <= 0.0 {
        normal_cdf(p) - normal_cdf(q)
    } else {
        normal_tail(q) - normal_tail(p)
    }
}

/// The mean of `Phi` over a rectangle from the integral over it and the reciprocal of the width.
#[inline(always)]
pub(super) fn over(integral: f64, reciprocal: f64) -> f64 {
    (integral * reciprocal).clamp(0.0, 1.0)
}

/// The small tail of the two that a limit cuts off: the rectangle reaches from `q` to `p >= q` standard
/// deviations of the normal part below the limit, or above it if `turned`; `p + q <= 0`.
#[derive(Clone, Copy)]
pub(super) struct Tail {
    pub(super) q: f64,
    pub(super) p: f64,
    pub(super) turned: bool,
}

impl Tail {
    /// Both turned at once if their sum is above zero, without a jump that may be guessed wrong.
    #[inline(always)]
    pub(super) fn at(q: f64, p: f64) -> Self {
        Self {
            q: if q < -p { q } else { -p },
            p: if p < -q { p } else { -q },
            turned: p > -q,
        }
    }

    #[inline(always)]
    pub(super) fn is_narrow(self, width: f64) -> bool {
        narrow(width, self.p.abs())
    }

    /// Whether the far end adds less than rounding does.
    fn ends_beyond(self, width: f64) -> bool {
        width >= NEGLIGIBLE && self.q <= -NEGLIGIBLE
    }

    /// The mean of `Phi` from `q` to `p`.
    fn mean_phi(self, width: f64) -> f64 {
        let p = self.p;
        if p.is_infinite() || p <= -NOTHING {
            0.0
        } else if width <= 0.0 {
            normal_cdf(p)
        } else if self.is_narrow(width) {
            mean(p - 0.5 * width, 0.5 * width, normal_cdf)
        } else {
            let [near, far] = ramps([p, self.q]);
            over(near - far, 1.0 / width)
        }
    }

    /// Chance to lie below and above the limit, from the small one.
    fn sides(self, chance: f64) -> (f64, f64) {
        let rest = 1.0 - chance;
        (
            if self.turned { rest } else { chance },
            if self.turned { chance } else { rest },
        )
    }
}

/// Chances to lie below and above each of two limits, for a rectangle from `a` to `b` and a normal part
/// `u > 0`.
fn beyond_both(a: f64, b: f64, u: f64, low: f64, high: f64) -> [(f64, f64); 2] {
    let width = (b - a) / u;
    let lower = Tail::at((low - b) / u, (low - a) / u);
    let upper = Tail::at((high - b) / u, (high - a) / u);
    if width <= 0.0 || lower.is_narrow(width) || upper.is_narrow(width) {
        return [lower, upper].map(|tail| tail.sides(tail.mean_phi(width)));
    }
    // Not waited for, as a division at the end would be.
    let reciprocal = 1.0 / width;
    let near = ramps([lower.p, upper.p]);
    let far = if lower.ends_beyond(width) && upper.ends_beyond(width) {
        [0.0; 2]
    } else {
        ramps([lower.q, upper.q])
    };
    [
        lower.sides(over(near[0] - far[0], reciprocal)),
        upper.sides(over(near[1] - far[1], reciprocal)),
    ]
}

/// A rectangle from `a` to `b >= a` with a normal part of standard deviation `u >= 0`; all in one
/// unit. `a == b` is a pure normal, `u == 0` a pure rectangle, both a point.
///
/// ```
/// use lashwork_tails::RectangularNormal;
/// // A normal estimate 13.6 with standard uncertainty 1.8 between 12.5 and 16.3; published: 0.66.
/// let oil = RectangularNormal { a: 13.6, b: 13.6, u: 1.8 };
/// let (below, inside, above) = oil.split(Some(12.5), Some(16.3));
/// assert!((inside - 0.66262978649530783).abs() < 1e-15);
/// assert!((below + inside + above - 1.0).abs() < 1e-15);
/// ```
///
/// # Source
/// The example: JCGM 106:2012 clause 7.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RectangularNormal {
    /// Lower end of the rectangle.
    pub a: f64,
    /// Upper end, not below the lower.
    pub b: f64,
    /// Standard deviation of the normal part, zero or more.
    pub u: f64,
}

impl RectangularNormal {
    /// The same seen in a mirror, so that above becomes below.
    fn mirrored(self) -> Self {
        Self {
            a: -self.b,
            b: -self.a,
            u: self.u,
        }
    }

    /// Width of the rectangle in standard deviations of the normal part; infinite without one.
    fn width(self) -> f64 {
        if self.u > 0.0 {
            (self.b - self.a) / self.u
        } else {
            f64::INFINITY
        }
    }

    /// Chance to lie below and above `t`; `u > 0`.
    fn sides(self, t: f64) -> (f64, f64) {
        let tail = Tail::at((t - self.b) / self.u, (t - self.a) / self.u);
        tail.sides(tail.mean_phi(self.width()))
    }

    /// The share of a pure rectangle from `low` to `high`; a point gives 1 when `holds`.
    fn flat(self, low: f64, high: f64, holds: bool) -> f64 {
        let length = self.b - self.a;
        if length > 0.0 {
            let overlap = self.b.min(high) - self.a.max(low);
            (overlap / length).clamp(0.0, 1.0)
        } else if holds {
            1.0
        } else {
            0.0
        }
    }

    /// `split` without a normal part.
    #[cold]
    fn sharp(self, lower: Option<f64>, upper: Option<f64>) -> (f64, f64, f64) {
        let low = lower.unwrap_or(f64::NEG_INFINITY);
        let high = upper.unwrap_or(f64::INFINITY);
        let inside = self.flat(low, high, low <= self.a && self.b <= high);
        let below = self.flat(f64::NEG_INFINITY, low, low > self.a);
        let above = self.flat(high, f64::INFINITY, high < self.b);
        (below, inside, above)
    }

    /// Chance to lie below, inside and above; a missing limit is never passed, a value on a limit is
    /// inside.
    ///
    /// Each is computed on its small tail: relative error below 1e-9 down to 1e-100 besides what the
    /// rounding of the limits moves; `4 2^-52 (1 + z^2)` for a pure normal.
    #[must_use]
    #[inline]
    pub fn split(self, lower: Option<f64>, upper: Option<f64>) -> (f64, f64, f64) {
        Self::parts(self.a, self.b, self.u, lower, upper)
    }

    /// `split` from numbers in registers: read from memory just after they were written, they would cost
    /// as much as the tails.
    #[inline(never)]
    fn parts(a: f64, b: f64, u: f64, lower: Option<f64>, upper: Option<f64>) -> (f64, f64, f64) {
        let shape = Self { a, b, u };
        if shape.width().is_infinite() {
            return shape.sharp(lower, upper);
        }
        match (lower, upper) {
            (None, None) => (0.0, 1.0, 0.0),
            (None, Some(t)) => {
                let (inside, above) = shape.sides(t);
                (0.0, inside, above)
            }
            (Some(t), None) => {
                let (below, inside) = shape.sides(t);
                (below, inside, 0.0)
            }
            (Some(low), Some(high)) => {
                let [(below, above_low), (below_high, above)] = beyond_both(a, b, u, low, high);
                let inside = if below + above <= 0.5 {
                    1.0 - (below + above)
                } else if above >= below {
                    shape.between(low, high, below_high - below)
                } else {
                    shape.mirrored().between(-high, -low, above_low - above)
                };
                (below, inside, above)
            }
        }
    }

    /// Chance to lie from `low` to `high` when most of the weight lies above `high`; `u > 0`.
    /// `difference` is the chance to lie below `high` less that to lie below `low`.
    fn between(self, low: f64, high: f64, difference: f64) -> f64 {
        let band = (high - low) / self.u;
        let width = self.width();
        let depth = ((self.a - high) / self.u).max(0.0);
        if !narrow(band, depth) {
            return difference.max(0.0);
        }
        let middle = low + 0.5 * (high - low);
        let half = 0.5 * (high - low);
        if width <= 0.0 {
            return band * mean(middle, half, |x| density((x - self.a) / self.u));
        }
        let share = (high - low) / (self.b - self.a);
        share
            * mean(middle, half, |x| {
                phi_difference((x - self.b) / self.u, (x - self.a) / self.u, width)
            })
    }
}
