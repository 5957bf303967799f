//! What is known of a quantity: an interval, blurred.

use super::{Chance, HasLimits, Judgement, Limits, Measurand, Probabilities, ToleranceError};
use super::{Uncertainty, judge};
use crate::statistics::RectangularNormal;
use core::ops::Add;
use serde::Serialize;

/// What is known of a quantity: it lies between two values, or on one side of one, and those are
/// known with a normal standard uncertainty.
///
/// Between two values it is taken as equally likely everywhere (rectangular, JCGM 100:2008 4.3.7).
/// With one value nothing is assumed about how far beyond it the quantity lies.
///
/// ```
/// use lashwork::quantity::{Lash, Marked};
/// use lashwork::tolerance::{Estimate, Limits, Uncertainty};
/// // The 0.15 leaf goes in, the 0.20 leaf does not.
/// let found = Estimate::between(
///     Lash::parse("0.15 mm")?, Lash::parse("0.20 mm")?, Uncertainty::ZERO)?;
/// let p = found.probabilities(&Limits::at_least(Marked::parse("0.16 mm")?));
/// assert!((p.below.most - 0.2).abs() < 1e-12);
/// // The thinnest leaf does not go in: certainly below it, how far is not known.
/// let stuck = Estimate::at_most(Lash::parse("0.05 mm")?, Uncertainty::from_mm(0.002)?);
/// let p = stuck.probabilities(&Limits::at_least(Marked::parse("0.16 mm")?));
/// assert!(p.below.least > 0.999_999 && p.below.most == 1.0);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Estimate<Q: Measurand> {
    low: Option<Q>,
    high: Option<Q>,
    normal_uncertainty: Uncertainty<Q>,
}

impl<Q: Measurand> Estimate<Q> {
    /// Between two values; equal values make a pure normal estimate.
    ///
    /// # Errors
    /// [`ToleranceError::CrossedEstimate`] if `low` is above `high`.
    #[inline]
    pub fn between(low: Q, high: Q, u: Uncertainty<Q>) -> Result<Self, ToleranceError> {
        if low > high {
            return Err(ToleranceError::CrossedEstimate {
                low: low.number(),
                high: high.number(),
                unit: Q::UNIT,
            });
        }
        Ok(Self {
            low: Some(low),
            high: Some(high),
            normal_uncertainty: u,
        })
    }

    /// This much or more; `u` is the uncertainty of `low`.
    #[must_use]
    pub const fn at_least(low: Q, u: Uncertainty<Q>) -> Self {
        Self {
            low: Some(low),
            high: None,
            normal_uncertainty: u,
        }
    }

    /// This much or less; `u` is the uncertainty of `high`.
    #[must_use]
    pub const fn at_most(high: Q, u: Uncertainty<Q>) -> Self {
        Self {
            low: None,
            high: Some(high),
            normal_uncertainty: u,
        }
    }

    /// From the ends there are, at least one.
    ///
    /// # Errors
    /// [`ToleranceError::NoEnd`] without an end; [`ToleranceError::CrossedEstimate`] if `low` is above
    /// `high`.
    ///
    /// ```
    /// use lashwork::Refusal;
    /// use lashwork::quantity::Lash;
    /// use lashwork::tolerance::{Estimate, Uncertainty};
    /// let (low, u) = (Lash::from_mm(0.2)?, Uncertainty::from_mm(0.01)?);
    /// assert_eq!(Estimate::of(Some(low), None, u)?, Estimate::at_least(low, u));
    /// let nothing = Estimate::<Lash>::of(None, None, u);
    /// assert_eq!(nothing.unwrap_err().code(), "tolerance.no-end");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[inline]
    pub fn of(low: Option<Q>, high: Option<Q>, u: Uncertainty<Q>) -> Result<Self, ToleranceError> {
        match (low, high) {
            (Some(low), Some(high)) => Self::between(low, high, u),
            (Some(low), None) => Ok(Self::at_least(low, u)),
            (None, Some(high)) => Ok(Self::at_most(high, u)),
            (None, None) => Err(ToleranceError::NoEnd),
        }
    }

    /// From plain numbers in the base unit of the quantity, as columns hold them: no lower end is
    /// minus infinity, no upper end infinity.
    ///
    /// # Errors
    /// As [`Self::of`]; [`ToleranceError::Quantity`] for an end that the quantity cannot have,
    /// [`ToleranceError::Uncertainty`].
    ///
    /// ```
    /// use lashwork::quantity::Lash;
    /// use lashwork::tolerance::{Estimate, Uncertainty};
    /// let open = Estimate::from_numbers(0.2, f64::INFINITY, 0.01)?;
    /// assert_eq!(open, Estimate::at_least(Lash::from_mm(0.2)?, Uncertainty::from_mm(0.01)?));
    /// assert!(Estimate::<Lash>::from_numbers(f64::NAN, 0.2, 0.01).is_err());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[inline]
    pub fn from_numbers(low: f64, high: f64, u: f64) -> Result<Self, ToleranceError> {
        let u = Uncertainty::from_number(u)?;
        match (low == f64::NEG_INFINITY, high == f64::INFINITY) {
            (false, false) => Self::between(Q::from_number(low)?, Q::from_number(high)?, u),
            (false, true) => Ok(Self::at_least(Q::from_number(low)?, u)),
            (true, false) => Ok(Self::at_most(Q::from_number(high)?, u)),
            (true, true) => Err(ToleranceError::NoEnd),
        }
    }

    /// The estimate after the quantity has changed by an amount that is itself uncertain and
    /// independent of the reading.
    #[must_use]
    pub fn shifted<D: Copy>(self, change: D, extra: Uncertainty<Q>) -> Self
    where
        Q: Add<D, Output = Q>,
    {
        Self {
            low: self.low.map(|end| end + change),
            high: self.high.map(|end| end + change),
            normal_uncertainty: self.normal_uncertainty.combined(extra),
        }
    }

    /// The lower end, if there is one.
    #[must_use]
    pub const fn low(&self) -> Option<Q> {
        self.low
    }

    /// The upper end, if there is one.
    #[must_use]
    pub const fn high(&self) -> Option<Q> {
        self.high
    }

    /// The middle, which is also the mean; `None` if one-sided.
    #[must_use]
    pub fn centre(&self) -> Option<Q> {
        let (low, high) = (self.low?, self.high?);
        Q::from_number(low.number() + 0.5 * (high.number() - low.number())).ok()
    }

    /// The standard uncertainty of the normal part.
    #[must_use]
    pub const fn normal_uncertainty(&self) -> Uncertainty<Q> {
        self.normal_uncertainty
    }

    /// The standard uncertainty of the whole: half the interval over the root of three, combined
    /// with the normal part (JCGM 100:2008 4.3.7); `None` if one-sided.
    ///
    /// ```
    /// use lashwork::quantity::Lash;
    /// use lashwork::tolerance::{Estimate, Uncertainty};
    /// let e = Estimate::between(
    ///     Lash::from_mm(0.10)?, Lash::from_mm(0.16)?, Uncertainty::from_mm(0.01)?)?;
    /// assert!((e.standard_uncertainty().unwrap().mm() - 0.02).abs() < 1e-15);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn standard_uncertainty(&self) -> Option<Uncertainty<Q>> {
        let half = 0.5 * (self.high?.number() - self.low?.number());
        Some(Uncertainty::of_rectangle(half).combined(self.normal_uncertainty))
    }

    /// The probabilities for limits in the base unit.
    pub(super) fn placed(&self, lower: Option<f64>, upper: Option<f64>) -> Probabilities {
        match (self.low, self.high) {
            (Some(low), Some(high)) => {
                Probabilities::known(self.shape(low, high).split(lower, upper))
            }
            (Some(low), None) => {
                let (below, above, in_band) = self.one_sided(low, lower, upper, false);
                Probabilities {
                    below,
                    in_band,
                    above,
                }
            }
            (None, Some(high)) => {
                let (above, below, in_band) = self.one_sided(high, upper, lower, true);
                Probabilities {
                    below,
                    in_band,
                    above,
                }
            }
            (None, None) => Probabilities {
                below: Chance::UNKNOWN,
                in_band: Chance::UNKNOWN,
                above: Chance::UNKNOWN,
            },
        }
    }

    /// Chances for a value at or beyond `end`: to be short of the near limit, beyond the far limit,
    /// and between. `mirrored` when beyond means below.
    fn one_sided(
        &self,
        end: Q,
        near: Option<f64>,
        far: Option<f64>,
        mirrored: bool,
    ) -> (Chance, Chance, Chance) {
        let seen = |number: f64| if mirrored { -number } else { number };
        let at = seen(end.number());
        let point = RectangularNormal {
            a: at,
            b: at,
            u: self.normal_uncertainty.number(),
        };
        // With the value at its end it is least far; any further it leaves the near side and may
        // pass the far one.
        let (near_short, near_reached, _) = point.split(near.map(seen), None);
        let (_, far_reached, far_passed) = point.split(None, far.map(seen));
        let short = Chance {
            least: 0.0,
            most: near_short,
        };
        let (beyond, between_least) = if far.is_some() {
            let beyond = Chance {
                least: far_passed,
                most: 1.0,
            };
            (beyond, 0.0)
        } else {
            (Chance::known(0.0), near_reached)
        };
        let between = Chance {
            least: between_least,
            most: far_reached,
        };
        (short, beyond, between)
    }

    pub(super) fn shape(&self, low: Q, high: Q) -> RectangularNormal {
        RectangularNormal {
            a: low.number(),
            b: high.number(),
            u: self.normal_uncertainty.number(),
        }
    }
}

impl<Q: HasLimits> Estimate<Q> {
    /// How probable it is that the quantity lies below, in, or above the band.
    ///
    /// Two-sided: each on its small tail, relative error below 1e-9 down to 1e-100 besides what the
    /// rounding of the limits moves. One-sided: the bounds that hold whatever lies beyond the
    /// value. A value on a limit is in the band.
    #[must_use]
    pub fn probabilities(&self, limits: &Limits<Q>) -> Probabilities {
        let (lower, upper) = limits.numbers();
        self.placed(lower, upper)
    }

    /// The verdict by the usual rule of the quantity, [`HasLimits::USUAL_RULE`]; for another rule see
    /// [`judge`].
    ///
    /// ```
    /// use lashwork::quantity::Lash;
    /// use lashwork::tolerance::{Estimate, Uncertainty, Verdict};
    /// let found = Estimate::at_most(Lash::parse("0.10 mm")?, Uncertainty::from_mm(0.002)?);
    /// let judgement = found.judged_by(&"0.15 mm to 0.25 mm".parse()?);
    /// assert_eq!(judgement.verdict, Verdict::Below);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn judged_by(&self, limits: &Limits<Q>) -> Judgement {
        judge(self, limits, &Q::USUAL_RULE)
    }
}
