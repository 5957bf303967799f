//! A reading as a normal factor: exactly where it has no width, else so that the moments agree.
//!
//! # Source
//! Expectation propagation: T. Minka (2001). For a reading between `low` and `high`, blurred with standard
//! deviation `s`, and a value known as normal with mean `m` and variance `v` without that reading,
//! the chance of the reading is `Phi(b) - Phi(a)` with `b = (high - m) / sqrt(v + s^2)`; its logarithm's
//! derivatives by `m` give the moments.

use super::course::Reading;
use crate::statistics::{ln_normal_density, ln_normal_interval, ln_normal_tail};
use core::f64::consts::TAU;

/// An interval this much shorter than the blur is a point for all that can be told.
const POINT: f64 = 1e-3;
/// What is left of a variance when a reading is taken out, below which nothing is left.
const ALONE: f64 = 1e-7;

/// A reading with the factor that stands for it: `c exp(-precision (value - y)^2 / 2)`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Site {
    /// When, in spans of the record.
    pub(super) x: f64,
    low: f64,
    high: f64,
    u: f64,
    /// Standard deviation of the blur with the scatter in it.
    s: f64,
    pub(super) y: f64,
    pub(super) precision: f64,
    pub(super) ln_c: f64,
    /// Whether it needs steps to settle.
    is_wide: bool,
}

impl Site {
    pub(super) fn new(reading: &Reading, x: f64) -> Self {
        Self {
            x,
            low: reading.low,
            high: reading.high,
            u: reading.u,
            s: 0.0,
            y: 0.0,
            precision: 0.0,
            ln_c: 0.0,
            is_wide: false,
        }
    }

    /// Begins anew with a scatter: as the reading stands alone.
    pub(super) fn begin(&mut self, scatter: f64, least: f64) {
        self.s = libm::hypot(self.u, scatter).max(least);
        let width = self.high - self.low;
        if width <= POINT * self.s {
            self.is_wide = false;
            let variance = self.s * self.s + width * width / 12.0;
            self.y = self.low + 0.5 * width;
            self.precision = 1.0 / variance;
            self.ln_c = -0.5 * libm::log(TAU * variance);
            if width > 0.0 {
                // A chance, as that of a wider one is; of a point it is a density.
                self.ln_c += libm::log(width);
            }
            return;
        }
        self.is_wide = true;
        self.alone();
    }

    /// As by its moments: what [`Self::begin`] gives, without steps to follow.
    pub(super) fn as_moments(&mut self, scatter: f64, least: f64) {
        self.begin(scatter, least);
        self.is_wide = false;
        if self.precision > 0.0 {
            self.ln_c = 0.5 * libm::log(self.precision / TAU);
        }
    }

    /// All alike, whatever they state; what has one end counts nothing.
    pub(super) fn plain(&mut self) {
        let has_both_ends = (self.high - self.low).is_finite();
        self.precision = if has_both_ends { 1.0 } else { 0.0 };
        self.y = if has_both_ends {
            self.low + 0.5 * (self.high - self.low)
        } else {
            0.0
        };
    }

    fn alone(&mut self) {
        let width = self.high - self.low;
        if width.is_infinite() {
            (self.y, self.precision, self.ln_c) = (0.0, 0.0, 0.0);
            return;
        }
        let variance = self.s * self.s + width * width / 12.0;
        self.y = self.low + 0.5 * width;
        self.precision = 1.0 / variance;
        self.ln_c = libm::log(width) - 0.5 * libm::log(TAU * variance);
    }

    /// A step towards agreeing moments, given what all readings together say of the value; how far it went,
    /// as a share.
    pub(super) fn step(&mut self, mean: f64, variance: f64, by: f64) -> f64 {
        if !self.is_wide {
            return 0.0;
        }
        let left = 1.0 - self.precision * variance;
        if left < ALONE {
            let before = self.precision;
            self.alone();
            return (before / self.precision - 1.0).abs();
        }
        let v = variance / left;
        let m = (mean - self.precision * variance * self.y) / left;
        let (g, h, _) = self.derivatives(m, v);
        let (wanted, shift) = if h > 0.0 && h * v < 1.0 {
            let precision = h / (1.0 - v * h);
            (precision, precision * (m + g / h))
        } else {
            (0.0, 0.0)
        };
        let (precision, product) = (self.precision, self.precision * self.y);
        let next = precision + by * (wanted - precision);
        let product = product + by * (shift - product);
        let (y, next) = if next > 0.0 {
            (product / next, next)
        } else {
            (m, 0.0)
        };
        let moved = ((next - precision) * (v + self.s * self.s)).abs();
        let moved = moved.max((y - self.y).abs() * libm::sqrt(next));
        (self.y, self.precision) = (y, next);
        moved
    }

    /// The constant that makes the factor weigh as much as the reading does.
    pub(super) fn close(&mut self, mean: f64, variance: f64) {
        let left = 1.0 - self.precision * variance;
        if !self.is_wide || left < ALONE {
            return;
        }
        let v = variance / left;
        let m = (mean - self.precision * variance * self.y) / left;
        let (_, _, ln_z) = self.derivatives(m, v);
        let with = 1.0 + self.precision * v;
        let away = m - self.y;
        self.ln_c = ln_z + 0.5 * libm::log(with) + 0.5 * away * away * self.precision / with;
    }

    /// First derivative and negative second of the logarithm of the chance, and that logarithm.
    fn derivatives(&self, m: f64, v: f64) -> (f64, f64, f64) {
        let spread = libm::sqrt(v + self.s * self.s);
        let (a, b) = ((self.low - m) / spread, (self.high - m) / spread);
        let ln_z = match (self.low.is_finite(), self.high.is_finite()) {
            (true, true) => ln_normal_interval(a, b),
            (true, false) => ln_normal_tail(a),
            _ => ln_normal_tail(-b),
        };
        let over = |z: f64| {
            if z.is_finite() {
                libm::exp(ln_normal_density(z) - ln_z)
            } else {
                0.0
            }
        };
        let times = |z: f64, density: f64| if z.is_finite() { z * density } else { 0.0 };
        let (at_a, at_b) = (over(a), over(b));
        let first = -(at_b - at_a) / spread;
        let second = (times(b, at_b) - times(a, at_a)) / (spread * spread) + first * first;
        (first, second, ln_z)
    }
}
