//! The sums behind [`CoolingFit`](super::CoolingFit): one search over the rate, the rest linear.
//!
//! The law is written about the first reading, `T = first - slope (1 - exp(-k t)) / k`, because so
//! neither part vanishes or blows up while `k t` is small.

use super::ThermalError;

/// Steps of the grid over the logarithm of the rate.
const GRID: u32 = 240;
/// Halvings of a cell of the grid: down to the last bit.
const HALVINGS: u32 = 80;
/// Least share of the difference that goes between first and last reading: below it the bend drowns
/// in rounding.
const SLOWEST: f64 = 1e-5;
/// Greatest number of time constants between first and last reading.
const FASTEST: f64 = 1e3;

/// Minutes after the first reading (infinite for the surroundings) and degrees Celsius.
pub(super) struct Points<'a> {
    pub(super) rows: &'a [(f64, f64)],
    pub(super) last: f64,
}

/// The two linear parts for a given rate.
#[derive(Clone, Copy)]
pub(super) struct CoolingLine {
    pub(super) first: f64,
    pub(super) slope: f64,
}

/// `(1 - exp(-k t)) / k`.
fn run(rate: f64, minutes: f64) -> f64 {
    if minutes.is_infinite() {
        1.0 / rate
    } else {
        -libm::expm1(-rate * minutes) / rate
    }
}

/// Derivative of [`run`] by the rate.
fn run_by_rate(rate: f64, minutes: f64) -> f64 {
    if minutes.is_infinite() {
        return -1.0 / (rate * rate);
    }
    let x = rate * minutes;
    let shape = if x < 1e-2 {
        // The closed form cancels here; the next term is x^5 / 840.
        -0.5 + x * (1.0 / 3.0 - x * (1.0 / 8.0 - x * (1.0 / 30.0 - x / 144.0)))
    } else {
        (x * libm::exp(-x) + libm::expm1(-x)) / (x * x)
    };
    shape * minutes * minutes
}

impl Points<'_> {
    /// Least squares of the two linear parts.
    pub(super) fn line(&self, rate: f64) -> CoolingLine {
        let count = self.rows.len() as f64;
        let mean_x = self.rows.iter().map(|(t, _)| run(rate, *t)).sum::<f64>() / count;
        let mean_y = self.rows.iter().map(|(_, y)| y).sum::<f64>() / count;
        let (mut square, mut product) = (0.0, 0.0);
        for (t, y) in self.rows {
            let x = run(rate, *t) - mean_x;
            square += x * x;
            product += x * (y - mean_y);
        }
        let slope = -product / square;
        CoolingLine {
            first: mean_y + slope * mean_x,
            slope,
        }
    }

    /// Sum of the squared residuals.
    pub(super) fn squares(&self, rate: f64) -> f64 {
        let line = self.line(rate);
        let residual = |t: f64, y: f64| y - line.first + line.slope * run(rate, t);
        self.rows
            .iter()
            .map(|(t, y)| residual(*t, *y) * residual(*t, *y))
            .sum()
    }

    /// Half the slope of the sum of squares by the rate; the linear parts follow the rate, but at
    /// their own best the sum does not feel them.
    fn downhill(&self, rate: f64) -> f64 {
        let line = self.line(rate);
        self.rows
            .iter()
            .map(|(t, y)| {
                let residual = y - line.first + line.slope * run(rate, *t);
                residual * line.slope * run_by_rate(rate, *t)
            })
            .sum()
    }

    /// The rate with the least sum of squares.
    pub(super) fn rate(&self) -> Result<f64, ThermalError> {
        let (low, high) = (
            libm::log(SLOWEST / self.last),
            libm::log(FASTEST / self.last),
        );
        let at = |i: u32| libm::exp(low + (high - low) * f64::from(i) / f64::from(GRID));
        let mut best = (0, f64::INFINITY);
        for i in 0..=GRID {
            let squares = self.squares(at(i));
            if squares < best.1 {
                best = (i, squares);
            }
        }
        let (i, _) = best;
        if i == 0 || i == GRID {
            return Err(ThermalError::NoBend);
        }
        let (mut falls, mut rises) = (at(i - 1), at(i + 1));
        for _ in 0..HALVINGS {
            let middle = 0.5 * (falls + rises);
            if self.downhill(middle) < 0.0 {
                falls = middle;
            } else {
                rises = middle;
            }
        }
        Ok(0.5 * (falls + rises))
    }

    /// Covariance of surroundings, start above them and rate, for readings of standard uncertainty
    /// `u`; `None` if the normal matrix has no inverse.
    pub(super) fn covariance(&self, rate: f64, above: f64, u: f64) -> Option<[[f64; 3]; 3]> {
        // Columns scaled alike: the rate in shares of itself, times the start.
        let scale = [1.0, 1.0, rate / above];
        let mut m = [[0.0; 3]; 3];
        for (t, _) in self.rows {
            let left = if t.is_infinite() {
                0.0
            } else {
                libm::exp(-rate * t)
            };
            let passed = if t.is_infinite() { 0.0 } else { rate * t };
            let by = [1.0, left, -passed * left];
            for (row, a) in m.iter_mut().zip(by) {
                for (cell, b) in row.iter_mut().zip(by) {
                    *cell += a * b;
                }
            }
        }
        let mut inverse = inverse(m)?;
        for (row, a) in inverse.iter_mut().zip(scale) {
            for (cell, b) in row.iter_mut().zip(scale) {
                *cell *= a * b * u * u;
            }
        }
        Some(inverse)
    }
}

/// Inverse of a symmetric positive matrix of three rows by elimination; `None` if a pivot drowns in
/// rounding.
fn inverse([[a, b, c], [_, e, f], [_, _, i]]: [[f64; 3]; 3]) -> Option<[[f64; 3]; 3]> {
    const ROUNDING: f64 = 1e-13;
    let (l1, l2) = (b / a, c / a);
    let second = e - l1 * b;
    let l3 = (f - l1 * c) / second;
    let third = i - l2 * c - l3 * l3 * second;
    if !(a > 0.0 && second > ROUNDING * e && third > ROUNDING * i) {
        return None;
    }
    // The inverse of L D L', from the inverse of L.
    let g = l1 * l3 - l2;
    let (d1, d2, d3) = (1.0 / a, 1.0 / second, 1.0 / third);
    let zz = d3;
    let yz = -l3 * d3;
    let xz = g * d3;
    let yy = d2 + l3 * l3 * d3;
    let xy = -l1 * d2 - g * l3 * d3;
    let xx = d1 + l1 * l1 * d2 + g * g * d3;
    Some([[xx, xy, xz], [xy, yy, yz], [xz, yz, zz]])
}
