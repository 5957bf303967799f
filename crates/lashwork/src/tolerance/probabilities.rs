//! How probable each side of a band is.

use serde::Serialize;

/// A probability, or what bounds it when the reading does not fix it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Chance {
    /// It is at least this.
    pub least: f64,
    /// It is at most this; equal to `least` when known.
    pub most: f64,
}

impl Chance {
    /// Nothing is known.
    pub(super) const UNKNOWN: Self = Self {
        least: 0.0,
        most: 1.0,
    };

    #[inline]
    pub(super) const fn known(p: f64) -> Self {
        Self { least: p, most: p }
    }
}

/// How probable it is that a value lies below, in, or above a band.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Probabilities {
    /// Below the lower limit.
    pub below: Chance,
    /// From the lower limit to the upper.
    pub in_band: Chance,
    /// Above the upper limit.
    pub above: Chance,
}

impl Probabilities {
    /// Least and most of each chance: below, in band, above.
    ///
    /// ```
    /// use lashwork::quantity::Lash;
    /// use lashwork::tolerance::{Estimate, Uncertainty};
    /// let estimate = Estimate::at_least(Lash::parse("0.30 mm")?, Uncertainty::ZERO);
    /// let found = estimate.probabilities(&"0.15 mm to 0.25 mm".parse()?);
    /// assert_eq!(found.ends(), [0.0, 0.0, 0.0, 0.0, 1.0, 1.0]);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub const fn ends(&self) -> [f64; 6] {
        let Self {
            below,
            in_band,
            above,
        } = self;
        [
            below.least,
            below.most,
            in_band.least,
            in_band.most,
            above.least,
            above.most,
        ]
    }

    #[inline]
    pub(crate) const fn known((below, in_band, above): (f64, f64, f64)) -> Self {
        Self {
            below: Chance::known(below),
            in_band: Chance::known(in_band),
            above: Chance::known(above),
        }
    }
}
