//! A parabola through readings of one uncertainty, over orthogonal polynomials.
//!
//! # Source
//! Forsythe (1957), Generation and use of orthogonal polynomials for data-fitting: the coefficients are
//! independent, so each has its own variance.

use alloc::vec::Vec;

/// A cubic coefficient against its standard uncertainty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Cubic {
    pub(super) value: f64,
    /// What one of variance 1 in the readings makes of it.
    pub(super) variance: f64,
}

/// `y = a + b d + c d^2` with `d` from the mean place, and variances for readings of variance 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Parabola {
    pub(super) centre: f64,
    pub(super) a: f64,
    pub(super) b: f64,
    pub(super) c: f64,
    /// Slope of the straight line through the readings.
    pub(super) line: f64,
    /// Of mean, slope of the line and curvature.
    variances: [f64; 3],
    /// The second polynomial is `d^2 - skew d - mean square`.
    skew: f64,
    mean_square: f64,
    /// Sum of the squares of what is left.
    pub(super) left: f64,
    pub(super) cubic: Option<Cubic>,
}

impl Parabola {
    /// Through three places or more.
    pub(super) fn through(points: &[(f64, f64)]) -> Self {
        let count = points.len() as f64;
        let mean = |of: &dyn Fn(f64, f64) -> f64| {
            points.iter().map(|(x, y)| of(*x, *y)).sum::<f64>() / count
        };
        let centre = mean(&|x, _| x);
        let level = mean(&|_, y| y);
        let mean_square = mean(&|x, _| (x - centre) * (x - centre));
        let skew = mean(&|x, _| libm::pow(x - centre, 3.0)) / mean_square;
        let second = |x: f64| {
            let d = x - centre;
            d * d - skew * d - mean_square
        };
        let second_square = mean(&|x, _| second(x) * second(x));
        let line = mean(&|x, y| (y - level) * (x - centre)) / mean_square;
        let c = mean(&|x, y| (y - level) * second(x)) / second_square;
        let rest = |x: f64, y: f64| y - level - line * (x - centre) - c * second(x);
        // The third polynomial, by what of the cube the others leave.
        let raw = |x: f64| (x - centre) * second(x);
        let (on_line, on_second) = (
            mean(&|x, _| raw(x) * (x - centre)) / mean_square,
            mean(&|x, _| raw(x) * second(x)) / second_square,
        );
        let on_level = mean(&|x, _| raw(x));
        let third = |x: f64| raw(x) - on_level - on_line * (x - centre) - on_second * second(x);
        let third_square = mean(&|x, _| third(x) * third(x));
        let scale = mean_square * mean_square * mean_square;
        let cubic = (third_square > 1e-9 * scale).then(|| Cubic {
            value: mean(&|x, y| rest(x, y) * third(x)) / third_square,
            variance: 1.0 / (count * third_square),
        });
        Self {
            centre,
            a: level - c * mean_square,
            b: line - c * skew,
            c,
            line,
            variances: [
                1.0 / count,
                1.0 / (count * mean_square),
                1.0 / (count * second_square),
            ],
            skew,
            mean_square,
            left: points
                .iter()
                .map(|(x, y)| rest(*x, *y) * rest(*x, *y))
                .sum(),
            cubic,
        }
    }

    /// The value at a place.
    pub(super) fn at(&self, x: f64) -> f64 {
        let d = x - self.centre;
        self.a + (self.b + self.c * d) * d
    }

    /// Variance of the value at a place, for readings of variance 1.
    pub(super) fn variance_at(&self, x: f64) -> f64 {
        let d = x - self.centre;
        self.variance_of([1.0, d, d * d])
    }

    pub(super) const fn line_variance(&self) -> f64 {
        self.variances[1]
    }

    /// Variance of `p a + q b + r c`: mean, line and curvature are independent.
    pub(super) fn variance_of(&self, [p, q, r]: [f64; 3]) -> f64 {
        let [mean, line, bent] = self.variances;
        let by_bent = r - p * self.mean_square - q * self.skew;
        p * p * mean + q * q * line + by_bent * by_bent * bent
    }

    /// Variance of b, covariance of b and c, variance of c.
    pub(super) fn spread_of_top(&self) -> [f64; 3] {
        let [_, line, bent] = self.variances;
        [line + self.skew * self.skew * bent, -self.skew * bent, bent]
    }

    /// Where the derivative is nought, from the mean place.
    pub(super) fn top(&self) -> f64 {
        -0.5 * self.b / self.c
    }

    /// Fieller's interval of the top, from the mean place, for a factor and readings of a variance; none if it
    /// has no end.
    pub(super) fn top_between(&self, factor: f64, variance: f64) -> Option<(f64, f64)> {
        let [bb, bc, cc] = self.spread_of_top();
        let wide = factor * factor * variance;
        let square = self.c * self.c - wide * cc;
        let half = self.b * self.c - wide * bc;
        let rest = self.b * self.b - wide * bb;
        if square <= 0.0 {
            return None;
        }
        // `4 square d^2 + 4 half d + rest <= 0`.
        let root = libm::sqrt((half * half - square * rest).max(0.0));
        let end = |root: f64| (-half + root) / (2.0 * square);
        Some((end(-root), end(root)))
    }
}

/// How many different places there are.
pub(super) fn places(points: &[(f64, f64)]) -> usize {
    let mut places: Vec<f64> = points.iter().map(|(x, _)| *x).collect();
    places.sort_by(f64::total_cmp);
    places.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    places.len()
}
