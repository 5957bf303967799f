//! What a quantity will be, predicted from a few like ones.
//!
//! The sum of `scale * t` (Student's t with few degrees of freedom) and a normal deviation has no
//! closed distribution function. Student's t is a normal deviation whose own size is random:
//! `t = z sqrt(dof) / w` with `w` chi-distributed. Given `w` the sum is normal, so that the chance to
//! lie below a limit at distance `d` is the mean over `w` of `Phi(d w / sqrt(u^2 w^2 + scale^2 dof))`,
//! a bounded smooth function on either tail. It is taken by ten-point Gauss-Legendre over panels
//! that shrink towards `w = 0`, where a limit far out is decided.
//!
//! # Source
//! Student's t as a scale mixture of normals: its definition. Nodes and weights: Abramowitz and
//! Stegun, table 25.4.

use super::{BudgetError, HasLimits, Limits, Measurand, Probabilities, Uncertainty};
use crate::statistics::{mean, normal_cdf};

/// A quantity predicted as centre plus `spread` times Student's t plus a normal deviation.
///
/// ```
/// use lashwork::quantity::Lash;
/// use lashwork::tolerance::{Predicted, Uncertainty};
/// let band = "0.15 mm to 0.25 mm".parse()?;
/// let spread = Uncertainty::from_mm(0.05)?;
/// let next = Predicted::new(Lash::from_mm(0.20)?, spread, 1.0, Uncertainty::ZERO)?;
/// // One degree of freedom is the Cauchy distribution: half of it lies within its scale.
/// assert!((next.probabilities(&band).in_band.least - 0.5).abs() < 1e-12);
/// assert!(Predicted::new(Lash::from_mm(0.20)?, spread, 0.0, Uncertainty::ZERO).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Predicted<Q: Measurand> {
    centre: Q,
    spread: Uncertainty<Q>,
    degrees_of_freedom: f64,
    normal: Uncertainty<Q>,
}

impl<Q: Measurand> Predicted<Q> {
    /// Greatest number of degrees of freedom; with more the spread may as well be taken as known.
    pub const MAX_DEGREES_OF_FREEDOM: f64 = 10_000.0;

    /// Takes the centre, the scale of Student's t with its degrees of freedom, and the standard
    /// uncertainty of an independent normal part.
    ///
    /// # Errors
    /// [`BudgetError::DegreesOfFreedom`] below 1, above [`Self::MAX_DEGREES_OF_FREEDOM`] or not a
    /// number.
    pub fn new(
        centre: Q,
        spread: Uncertainty<Q>,
        degrees_of_freedom: f64,
        normal: Uncertainty<Q>,
    ) -> Result<Self, BudgetError> {
        if (1.0..=Self::MAX_DEGREES_OF_FREEDOM).contains(&degrees_of_freedom) {
            Ok(Self {
                centre,
                spread,
                degrees_of_freedom,
                normal,
            })
        } else {
            Err(BudgetError::DegreesOfFreedom {
                got: degrees_of_freedom,
            })
        }
    }

    /// The value it is as likely to lie below as above.
    #[must_use]
    pub const fn centre(&self) -> Q {
        self.centre
    }

    /// Chance to lie more than `-distance` below the centre.
    fn below(&self, distance: f64) -> f64 {
        let (spread, u) = (self.spread.number(), self.normal.number());
        let known = |sd: f64| {
            if sd > 0.0 {
                normal_cdf(distance / sd)
            } else if distance > 0.0 {
                1.0
            } else {
                0.0
            }
        };
        if spread <= 0.0 {
            return known(u);
        }
        let heavy = spread * libm::sqrt(self.degrees_of_freedom);
        mixture(self.degrees_of_freedom, |w| {
            normal_cdf(distance * w / libm::hypot(u * w, heavy))
        })
    }
}

impl<Q: HasLimits> Predicted<Q> {
    /// How probable it is that the quantity will be below, in, or above the band.
    ///
    /// Absolute error below 1e-11. A missing limit is never passed; a value on a limit is in the band.
    ///
    /// ```
    /// use lashwork::quantity::Lash;
    /// use lashwork::tolerance::{Predicted, Uncertainty};
    /// let u = |mm| Uncertainty::from_mm(mm);
    /// let next = Predicted::new(Lash::from_mm(0.2)?, u(0.01)?, 3.0, u(0.01)?)?;
    /// let p = next.probabilities(&"at least 0.2 mm".parse()?);
    /// assert!((p.below.least - 0.5).abs() < 1e-12 && p.above.most == 0.0);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn probabilities(&self, limits: &Limits<Q>) -> Probabilities {
        let centre = self.centre.number();
        let (lower, upper) = limits.numbers();
        let below = lower.map_or(0.0, |t| self.below(t - centre));
        let above = upper.map_or(0.0, |t| self.below(centre - t));
        Probabilities::known((below, (1.0 - below - above).clamp(0.0, 1.0), above))
    }
}

/// Half the width on which the chi density can be told from zero at double precision.
const REACH: f64 = 9.0;
/// Widest panel; the density changes on the scale of one.
const WIDEST: f64 = 0.5;
/// Where the shrinking panels end; limits up to 1e8 spreads away are resolved.
const LEAST: f64 = 1.0 / (1u64 << 32) as f64;

/// Mean of `f` over the chi distribution with `dof` degrees of freedom.
fn mixture(dof: f64, f: impl Fn(f64) -> f64) -> f64 {
    let peak = libm::sqrt(dof - 1.0);
    // Relative to its peak, so that nothing overflows; the sum of the weights puts it right.
    let log_density = |w: f64| {
        if dof > 1.0 {
            (dof - 1.0) * libm::log(w) - 0.5 * w * w
        } else {
            -0.5 * w * w
        }
    };
    let top = if peak > 0.0 { log_density(peak) } else { 0.0 };
    let density = |w: f64| libm::exp(log_density(w) - top);
    let (mut sum, mut weight) = (0.0, 0.0);
    let mut panel = |from: f64, to: f64| {
        let (middle, half) = (0.5 * (from + to), 0.5 * (to - from));
        sum += (to - from) * mean(middle, half, |w| density(w) * f(w));
        weight += (to - from) * mean(middle, half, density);
    };
    let mut from = (peak - REACH).max(0.0);
    let end = peak + REACH;
    while from < end {
        let step = if from > 0.0 {
            // A factor of the root of two, so that each panel is short against its distance to 0.
            (from * 0.414_213_562_373_095_1).min(WIDEST)
        } else {
            LEAST
        };
        let to = (from + step).min(end);
        panel(from, to);
        from = to;
    }
    sum / weight
}
