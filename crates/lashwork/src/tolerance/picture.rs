//! The shape of an estimate as a histogram, for whoever draws it.
//!
//! Uses this area only.

use super::{Estimate, Measurand, ToleranceError};
use alloc::vec::Vec;

impl<Q: Measurand> Estimate<Q> {
    /// Most bins that [`Self::shares`] gives.
    pub const MAX_BINS: usize = 4096;

    /// The chance to lie in each of `bins` equal bins from `from` to `to`.
    ///
    /// A chance and not a density, because it stays finite for a reading without any doubt. What
    /// lies outside `from` and `to` is in no bin. `None` for a one-sided reading: it says nothing
    /// about how the quantity is spread beyond its end.
    ///
    /// # Errors
    /// [`ToleranceError::Bins`] if `bins` is zero or above [`Self::MAX_BINS`], or `to` is not above
    /// `from`.
    ///
    /// ```
    /// use lashwork::quantity::Lash;
    /// use lashwork::tolerance::{Estimate, Uncertainty};
    /// let mm = |mm| Lash::from_mm(mm);
    /// let flat = Estimate::between(mm(0.15)?, mm(0.25)?, Uncertainty::ZERO)?;
    /// let shares = flat.shares(mm(0.10)?, mm(0.30)?, 4)?.unwrap_or_default();
    /// for (got, want) in shares.iter().zip([0.0, 0.5, 0.5, 0.0]) {
    ///     assert!((got - want).abs() < 1e-12);
    /// }
    /// let open = Estimate::at_least(mm(0.15)?, Uncertainty::ZERO);
    /// assert_eq!(open.shares(mm(0.10)?, mm(0.30)?, 4)?, None);
    /// assert!(flat.shares(mm(0.30)?, mm(0.10)?, 4).is_err());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn shares(&self, from: Q, to: Q, bins: usize) -> Result<Option<Vec<f64>>, ToleranceError> {
        let (from, to) = (from.number(), to.number());
        if bins == 0 || bins > Self::MAX_BINS || from >= to {
            return Err(ToleranceError::Bins {
                bins,
                most: Self::MAX_BINS,
                from,
                to,
                unit: Q::UNIT,
            });
        }
        let (Some(low), Some(high)) = (self.low(), self.high()) else {
            return Ok(None);
        };
        let shape = self.shape(low, high);
        let step = (to - from) / bins as f64;
        let edge = |i: usize| from + step * i as f64;
        let share = |i: usize| shape.split(Some(edge(i)), Some(edge(i + 1))).1;
        Ok(Some((0..bins).map(share).collect()))
    }
}
