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

use super::normal::{density, normal_cdf, normal_tail};
use super::tail_fit::ramp_over_density;

/// Positive nodes of ten-point Gauss-Legendre with their weights.
const GAUSS: [(f64, f64); 5] = [
    (0.148_874_338_981_631_22, 0.295_524_224_714_752_87),
    (0.433_395_394_129_247_2, 0.269_266_719_309_996_35),
    (0.679_409_568_299_024_4, 0.219_086_362_515_982_04),
    (0.865_063_366_688_984_5, 0.149_451_349_150_580_6),
    (0.973_906_528_517_171_7, 0.066_671_344_308_688_14),
];

/// From here outwards the tail is below the smallest `f64`, and its error function gives 0.
const NOTHING: f64 = 40.0;
/// From here outwards the tail and the density are less than half a unit in the last place of 1, and
/// of `G` on the other side.
const NEGLIGIBLE: f64 = 9.0;

/// `G(z)`: the integral of the normal distribution function up to `z`. `G(z) - G(-z) = z`.
fn ramp(z: f64) -> f64 {
    if z >= NEGLIGIBLE {
        // z times 1, plus a density that rounding drops.
        z
    } else if z > -NOTHING {
        let tail = density(z) * ramp_over_density(z.abs());
        if z > 0.0 { z + tail } else { tail }
    } else {
        0.0
    }
}

/// Mean of a smooth function over an interval.
pub(super) fn mean(middle: f64, half: f64, f: impl Fn(f64) -> f64) -> f64 {
    GAUSS.iter().fold(0.0, |sum, (node, weight)| {
        sum + 0.5 * weight * (f(middle - half * node) + f(middle + half * node))
    })
}

/// Whether a stretch of so many standard deviations, seen from so far out, is short against the
/// scale on which the tail falls.
fn narrow(width: f64, depth: f64) -> bool {
    width * (1.0 + depth) <= 1.0
}

/// `Phi(p) - Phi(q)` for `p - q = width >= 0`.
pub(super) fn phi_difference(q: f64, p: f64, width: f64) -> f64 {
    if narrow(width, q.abs().max(p.abs())) {
        width * mean(q + 0.5 * width, 0.5 * width, density)
    } else if p + q <= 0.0 {
        normal_cdf(p) - normal_cdf(q)
    } else {
        normal_tail(q) - normal_tail(p)
    }
}

/// A rectangle from `a` to `b >= a` with a normal part of standard deviation `u >= 0`; all in one
/// unit. `a == b` is a pure normal, `u == 0` a pure rectangle, both a point.
#[derive(Clone, Copy)]
pub(super) struct Convolved {
    pub(super) a: f64,
    pub(super) b: f64,
    pub(super) u: f64,
}

impl Convolved {
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

    /// Chance to lie below and above `t`, each from the small tail of the two.
    fn sides(self, t: f64) -> (f64, f64) {
        let width = self.width();
        let (q, p) = ((t - self.b) / self.u, (t - self.a) / self.u);
        if p + q < 0.0 {
            let below = Self::mean_phi(q, p, width);
            (below, 1.0 - below)
        } else if p + q > 0.0 {
            let above = Self::mean_phi(-p, -q, width);
            (1.0 - above, above)
        } else {
            let half = Self::mean_phi(q, p, width);
            (half, half)
        }
    }

    /// Mean of `Phi` from `q` to `p`, with `p + q <= 0` so that it is the small tail.
    fn mean_phi(q: f64, p: f64, width: f64) -> f64 {
        if p.is_infinite() || p <= -NOTHING {
            0.0
        } else if width <= 0.0 {
            normal_cdf(p)
        } else if narrow(width, p.abs()) {
            mean(p - 0.5 * width, 0.5 * width, normal_cdf)
        } else if width >= NEGLIGIBLE && q <= -NEGLIGIBLE {
            // G(q) is less than half a unit in the last place of G(p).
            (ramp(p) / width).clamp(0.0, 1.0)
        } else {
            ((ramp(p) - ramp(q)) / width).clamp(0.0, 1.0)
        }
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

    /// Chance to lie below, inside and above; a missing limit is never passed.
    pub(super) fn split(self, lower: Option<f64>, upper: Option<f64>) -> (f64, f64, f64) {
        if self.width().is_infinite() {
            let low = lower.unwrap_or(f64::NEG_INFINITY);
            let high = upper.unwrap_or(f64::INFINITY);
            let inside = self.flat(low, high, low <= self.a && self.b <= high);
            let below = self.flat(f64::NEG_INFINITY, low, low > self.a);
            return (below, inside, self.flat(high, f64::INFINITY, high < self.b));
        }
        match (lower, upper) {
            (None, None) => (0.0, 1.0, 0.0),
            (None, Some(t)) => {
                let (inside, above) = self.sides(t);
                (0.0, inside, above)
            }
            (Some(t), None) => {
                let (below, inside) = self.sides(t);
                (below, inside, 0.0)
            }
            (Some(low), Some(high)) => {
                let (below, above_low) = self.sides(low);
                let (below_high, above) = self.sides(high);
                let inside = if below + above <= 0.5 {
                    1.0 - (below + above)
                } else if above >= below {
                    self.between(low, high, below_high - below)
                } else {
                    self.mirrored().between(-high, -low, above_low - above)
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
