//! What is known of a lash: an interval, blurred.

use super::{Limits, ToleranceError};
use crate::quantity::{Lash, LashChange, Marked};
use crate::statistics::RectangularNormal;
use serde::Serialize;
use serde::ser::{SerializeMap, Serializer};

/// A standard uncertainty of lash, in millimetres; finite and not negative.
///
/// ```
/// use lashwork::tolerance::LashUncertainty;
/// let u = LashUncertainty::from_mm(0.003)?.combined(LashUncertainty::from_mm(0.004)?);
/// assert!((u.mm() - 0.005).abs() < 1e-18);
/// assert!(LashUncertainty::from_mm(f64::NAN).is_err());
/// # Ok::<(), lashwork::tolerance::ToleranceError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct LashUncertainty(f64);

impl LashUncertainty {
    /// No uncertainty at all.
    pub const ZERO: Self = Self(0.0);
    /// Greatest value accepted, in millimetres: the widest range a lash may have.
    pub const MAX_MM: f64 = 40.0;

    /// Takes a number of millimetres.
    ///
    /// # Errors
    /// [`ToleranceError::Uncertainty`] if negative, over [`Self::MAX_MM`] or not finite.
    pub fn from_mm(mm: f64) -> Result<Self, ToleranceError> {
        if (0.0..=Self::MAX_MM).contains(&mm) {
            Ok(Self(mm))
        } else {
            Err(ToleranceError::Uncertainty {
                got: mm,
                max: Self::MAX_MM,
            })
        }
    }

    /// Millimetres.
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.0
    }

    /// The uncertainty of the sum of two independent contributions: the root of the sum of squares
    /// (JCGM 100:2008 5.1.2).
    #[must_use]
    pub fn combined(self, other: Self) -> Self {
        Self(libm::hypot(self.0, other.0))
    }
}

impl Serialize for LashUncertainty {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(1))?;
        map.serialize_entry("mm", &self.0)?;
        map.end()
    }
}

/// A probability, or what bounds it when the reading does not fix it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Chance {
    /// It is at least this.
    pub least: f64,
    /// It is at most this; equal to `least` when known.
    pub most: f64,
}

impl Chance {
    pub(super) const fn known(p: f64) -> Self {
        Self { least: p, most: p }
    }
}

/// How probable it is that a valve is below, in, or above a band.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Probabilities {
    /// Below the lower limit.
    pub tight: Chance,
    /// From the lower limit to the upper.
    pub in_band: Chance,
    /// Above the upper limit.
    pub loose: Chance,
}

impl Probabilities {
    /// Least and most of each chance: tight, in band, loose.
    ///
    /// ```
    /// use lashwork::quantity::{Lash, Marked};
    /// use lashwork::tolerance::{DecisionRule, LashEstimate, LashUncertainty, Limits, judge};
    /// let estimate = LashEstimate::at_least(Lash::parse("0.30 mm")?, LashUncertainty::from_mm(0.0)?);
    /// let band = Limits::between(Marked::parse("0.15 mm")?, Marked::parse("0.25 mm")?)?;
    /// let found = judge(&estimate, &band, &DecisionRule::simple()).probabilities;
    /// assert_eq!(found.ends(), [0.0, 0.0, 0.0, 0.0, 1.0, 1.0]);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub const fn ends(&self) -> [f64; 6] {
        let Self {
            tight,
            in_band,
            loose,
        } = self;
        [
            tight.least,
            tight.most,
            in_band.least,
            in_band.most,
            loose.least,
            loose.most,
        ]
    }
}

/// What is known of a lash: it lies between two values, or on one side of one, and those are known
/// with a normal standard uncertainty.
///
/// Between two values it is taken as equally likely everywhere (rectangular, JCGM 100:2008 4.3.7).
/// With one value nothing is assumed about how far beyond it the lash lies.
///
/// ```
/// use lashwork::quantity::{Lash, Marked};
/// use lashwork::tolerance::{LashEstimate, LashUncertainty, Limits};
/// // The 0.15 leaf goes in, the 0.20 leaf does not.
/// let found = LashEstimate::between(
///     Lash::parse("0.15 mm")?, Lash::parse("0.20 mm")?, LashUncertainty::ZERO)?;
/// let p = found.probabilities(&Limits::at_least(Marked::parse("0.16 mm")?));
/// assert!((p.tight.most - 0.2).abs() < 1e-12);
/// // The thinnest leaf does not go in: certainly below it, how far is not known.
/// let stuck = LashEstimate::at_most(Lash::parse("0.05 mm")?, LashUncertainty::from_mm(0.002)?);
/// let p = stuck.probabilities(&Limits::at_least(Marked::parse("0.16 mm")?));
/// assert!(p.tight.least > 0.999_999 && p.tight.most == 1.0);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LashEstimate {
    low: Option<Lash>,
    high: Option<Lash>,
    normal_uncertainty: LashUncertainty,
}

impl LashEstimate {
    /// Between two values; equal values make a pure normal estimate.
    ///
    /// # Errors
    /// [`ToleranceError::CrossedEstimate`] if `low` is above `high`.
    pub fn between(low: Lash, high: Lash, u: LashUncertainty) -> Result<Self, ToleranceError> {
        if low > high {
            return Err(ToleranceError::CrossedEstimate {
                low_mm: low.mm(),
                high_mm: high.mm(),
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
    pub const fn at_least(low: Lash, u: LashUncertainty) -> Self {
        Self {
            low: Some(low),
            high: None,
            normal_uncertainty: u,
        }
    }

    /// This much or less; `u` is the uncertainty of `high`.
    #[must_use]
    pub const fn at_most(high: Lash, u: LashUncertainty) -> Self {
        Self {
            low: None,
            high: Some(high),
            normal_uncertainty: u,
        }
    }

    /// The estimate after the lash has changed by an amount that is itself uncertain and
    /// independent of the reading.
    #[must_use]
    pub fn shifted(self, change: LashChange, extra: LashUncertainty) -> Self {
        Self {
            low: self.low.map(|lash| lash + change),
            high: self.high.map(|lash| lash + change),
            normal_uncertainty: self.normal_uncertainty.combined(extra),
        }
    }

    /// The lower end, if there is one.
    #[must_use]
    pub const fn low(&self) -> Option<Lash> {
        self.low
    }

    /// The upper end, if there is one.
    #[must_use]
    pub const fn high(&self) -> Option<Lash> {
        self.high
    }

    /// The middle, which is also the mean; `None` if one-sided.
    #[must_use]
    pub fn centre(&self) -> Option<Lash> {
        let (low, high) = (self.low?, self.high?);
        Lash::from_mm(low.mm() + 0.5 * (high.mm() - low.mm())).ok()
    }

    /// The standard uncertainty of the normal part.
    #[must_use]
    pub const fn normal_uncertainty(&self) -> LashUncertainty {
        self.normal_uncertainty
    }

    /// The standard uncertainty of the whole: half the interval over the root of three, combined
    /// with the normal part (JCGM 100:2008 4.3.7); `None` if one-sided.
    ///
    /// ```
    /// use lashwork::quantity::Lash;
    /// use lashwork::tolerance::{LashEstimate, LashUncertainty};
    /// let e = LashEstimate::between(
    ///     Lash::from_mm(0.10)?, Lash::from_mm(0.16)?, LashUncertainty::from_mm(0.01)?)?;
    /// assert!((e.standard_uncertainty().unwrap().mm() - 0.02).abs() < 1e-15);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn standard_uncertainty(&self) -> Option<LashUncertainty> {
        let half = 0.5 * (self.high?.mm() - self.low?.mm());
        let flat = LashUncertainty(half / libm::sqrt(3.0));
        Some(flat.combined(self.normal_uncertainty))
    }

    /// How probable it is that the lash is below, in, or above the band.
    ///
    /// Two-sided: each on its small tail, relative error below 1e-9 down to 1e-100 besides what the
    /// rounding of the limits moves. One-sided: the bounds that hold whatever lies beyond the
    /// value. A lash on a limit is in the band.
    #[must_use]
    pub fn probabilities(&self, limits: &Limits) -> Probabilities {
        let (lower, upper) = (limits.lower(), limits.upper());
        self.probabilities_mm(lower.map(Marked::mm), upper.map(Marked::mm))
    }

    /// The same for limits in millimetres.
    pub(super) fn probabilities_mm(&self, lower: Option<f64>, upper: Option<f64>) -> Probabilities {
        match (self.low, self.high) {
            (Some(low), Some(high)) => {
                let (tight, in_band, loose) = self.shape(low, high).split(lower, upper);
                Probabilities {
                    tight: Chance::known(tight),
                    in_band: Chance::known(in_band),
                    loose: Chance::known(loose),
                }
            }
            (Some(low), None) => {
                let (tight, loose, in_band) = self.one_sided(low, lower, upper, false);
                Probabilities {
                    tight,
                    in_band,
                    loose,
                }
            }
            (None, Some(high)) => {
                let (loose, tight, in_band) = self.one_sided(high, upper, lower, true);
                Probabilities {
                    tight,
                    in_band,
                    loose,
                }
            }
            (None, None) => Probabilities {
                tight: UNKNOWN,
                in_band: UNKNOWN,
                loose: UNKNOWN,
            },
        }
    }

    /// Chances for a lash at or beyond `end`: to be short of the near limit, beyond the far limit,
    /// and between. `mirrored` when beyond means below.
    fn one_sided(
        &self,
        end: Lash,
        near: Option<f64>,
        far: Option<f64>,
        mirrored: bool,
    ) -> (Chance, Chance, Chance) {
        let seen = |mm: f64| if mirrored { -mm } else { mm };
        let at = seen(end.mm());
        let point = RectangularNormal {
            a: at,
            b: at,
            u: self.normal_uncertainty.mm(),
        };
        // With the lash at its end it is least far; any further it leaves the near side and may
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

    pub(super) fn shape(&self, low: Lash, high: Lash) -> RectangularNormal {
        RectangularNormal {
            a: low.mm(),
            b: high.mm(),
            u: self.normal_uncertainty.mm(),
        }
    }
}

/// Nothing is known.
const UNKNOWN: Chance = Chance {
    least: 0.0,
    most: 1.0,
};
