//! Shims as they are sold: a series of sizes.

use super::{AdjustError, ShimFit, StockShim};
use crate::quantity::{Lash, LashChange, LengthUnit, Marked, Nominal, ShimThickness};
use alloc::vec::Vec;
use serde::Serialize;

/// Which of two neighbouring sizes to take.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum ShimRounding {
    /// The nearer one; halfway, the thinner one.
    Nearest,
    /// The thinner one: the gap comes out as wanted or looser, never tighter.
    NeverTighter,
}

/// Sizes from first to last in equal steps, exact to the nanometre.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::adjust::ShimSeries;
/// use lashwork::quantity::Marked;
/// let m = |text| Marked::parse(text);
/// let series = ShimSeries::new(m("2.50 mm")?, m("3.30 mm")?, m("0.05 mm")?)?;
/// assert_eq!(series.count(), 17);
/// let missed = ShimSeries::new(m("2.50 mm")?, m("3.32 mm")?, m("0.05 mm")?);
/// assert_eq!(missed.unwrap_err().code(), "adjust.step-misses");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct ShimSeries {
    first: Marked,
    last: Marked,
    step: Marked,
}

/// A shim chosen from a series.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ShimChoice {
    /// The size to fit.
    pub size: Nominal,
    /// The gap to expect with it.
    pub predicted_lash: Lash,
    /// Predicted gap minus target: positive is looser than wanted.
    pub error: LashChange,
}

impl ShimSeries {
    /// Most sizes a series may have.
    pub const MAX_SIZES: i64 = 10_000;

    /// A series by its ends and step.
    ///
    /// # Errors
    /// [`AdjustError::StepNotPositive`]; [`AdjustError::SeriesOrder`] if the first size is not above
    /// zero or is thicker than the last; [`AdjustError::StepMisses`] if steps from the first do not
    /// hit the last; [`AdjustError::TooManySizes`]; [`AdjustError::Quantity`] for a size no shim has.
    pub fn new(first: Marked, last: Marked, step: Marked) -> Result<Self, AdjustError> {
        let [from, to, by] = [first, last, step].map(|m| m.nominal().nanometres());
        if by <= 0 {
            return Err(AdjustError::StepNotPositive { step });
        }
        if from <= 0 || to < from {
            return Err(AdjustError::SeriesOrder { first, last });
        }
        if (to - from) % by != 0 {
            return Err(AdjustError::StepMisses { first, last, step });
        }
        ShimThickness::from_nominal(first.nominal())?;
        ShimThickness::from_nominal(last.nominal())?;
        let count = (to - from) / by + 1;
        if count > Self::MAX_SIZES {
            let max = Self::MAX_SIZES;
            return Err(AdjustError::TooManySizes { count, max });
        }
        Ok(Self { first, last, step })
    }

    fn nanometres(&self) -> [i64; 3] {
        [self.first, self.last, self.step].map(|m| m.nominal().nanometres())
    }

    /// How many sizes there are.
    ///
    /// ```
    /// use lashwork::adjust::ShimSeries;
    /// use lashwork::quantity::Marked;
    /// let m = |text| Marked::parse(text);
    /// let series = ShimSeries::new(m("1.96 mm")?, m("2.68 mm")?, m("0.02 mm")?)?;
    /// assert_eq!(series.count(), 37);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn count(&self) -> usize {
        let [from, to, by] = self.nanometres();
        usize::try_from((to - from) / by + 1).unwrap_or(usize::MAX)
    }

    /// All sizes, thinnest first.
    ///
    /// ```
    /// use lashwork::adjust::ShimSeries;
    /// use lashwork::quantity::Marked;
    /// let m = |text| Marked::parse(text);
    /// let series = ShimSeries::new(m("2.50 mm")?, m("2.60 mm")?, m("0.05 mm")?)?;
    /// let mm: Vec<f64> = series.sizes().iter().map(|s| s.mm()).collect();
    /// assert_eq!(mm, [2.5, 2.55, 2.6]);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn sizes(&self) -> Vec<Nominal> {
        let [from, to, by] = self.nanometres();
        (0..=(to - from) / by)
            .filter_map(|i| Nominal::from_nanometres(from + i * by).ok())
            .collect()
    }

    /// The thinnest size and the thickest.
    #[must_use]
    pub const fn ends(&self) -> (Marked, Marked) {
        (self.first, self.last)
    }

    /// Whether a fitted shim may be one of the series, worn or ground: it lies at most
    /// [`StockShim::MEASURED_WITHIN_MM`] beyond the ends.
    ///
    /// # Errors
    /// [`AdjustError::FittedOutsideSeries`].
    ///
    /// ```
    /// use lashwork::Refusal;
    /// use lashwork::adjust::ShimSeries;
    /// use lashwork::quantity::{Marked, ShimThickness};
    /// let m = |text| Marked::parse(text);
    /// let series = ShimSeries::new(m("2.50 mm")?, m("3.30 mm")?, m("0.05 mm")?)?;
    /// assert!(series.check_fitted(ShimThickness::parse("2.46 mm")?).is_ok());
    /// let other = series.check_fitted(ShimThickness::parse("4.20 mm")?);
    /// assert_eq!(other.unwrap_err().code(), "adjust.fitted-outside-series");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn check_fitted(&self, fitted: ShimThickness) -> Result<(), AdjustError> {
        let within = StockShim::MEASURED_WITHIN_MM;
        let (first, last) = self.ends();
        if (first.mm() - within..=last.mm() + within).contains(&fitted.mm()) {
            return Ok(());
        }
        let fitted = fitted.show(LengthUnit::Millimetre, 4);
        Err(AdjustError::FittedOutsideSeries {
            fitted,
            first,
            last,
            within,
        })
    }

    /// The size for a valve, and the gap to expect with it.
    ///
    /// # Errors
    /// [`AdjustError::OutsideSeries`] if the wanted thickness is below the first or above the last
    /// size; otherwise as [`ShimFit::wanted`].
    ///
    /// ```
    /// use lashwork::adjust::{ShimFit, ShimRounding, ShimSeries};
    /// use lashwork::quantity::{Lash, LengthUnit, Marked, ShimThickness};
    /// let m = |text| Marked::parse(text);
    /// let series = ShimSeries::new(m("2.50 mm")?, m("3.30 mm")?, m("0.05 mm")?)?;
    /// let fit = ShimFit {
    ///     old: ShimThickness::parse("2.80 mm")?,
    ///     measured: Lash::parse("0.29 mm")?,
    ///     target: Lash::parse("0.20 mm")?,
    ///     ratio_from_shim_to_gap: 1.0,
    /// };
    /// // 2.89 mm is wanted: 2.90 is nearer, 2.85 is never tighter.
    /// let near = series.nearest(&fit, ShimRounding::Nearest)?;
    /// let loose = series.nearest(&fit, ShimRounding::NeverTighter)?;
    /// assert_eq!(near.size, m("2.90 mm")?.nominal());
    /// assert_eq!(loose.size, m("2.85 mm")?.nominal());
    /// assert_eq!(loose.predicted_lash.show(LengthUnit::Millimetre, 3), "0.240 mm");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn nearest(
        &self,
        wanted: &ShimFit,
        rounding: ShimRounding,
    ) -> Result<ShimChoice, AdjustError> {
        let exact = wanted.wanted()?;
        let [from, to, by] = self.nanometres();
        let beyond = exact.nanometres() - from;
        if beyond < 0 || exact.nanometres() > to {
            return Err(AdjustError::OutsideSeries {
                wanted: exact.show(LengthUnit::Millimetre, 4),
                first: self.first,
                last: self.last,
            });
        }
        let (steps, over) = (beyond / by, beyond % by);
        let up = rounding == ShimRounding::Nearest && 2 * over > by;
        let size = Nominal::from_nanometres(from + (steps + i64::from(up)) * by)?;
        let predicted_lash = wanted.lash_with(size)?;
        Ok(ShimChoice {
            size,
            predicted_lash,
            error: predicted_lash - wanted.target,
        })
    }

    /// The size by a stated rule; beyond the ends of the series the end itself.
    pub(super) fn rounded(&self, wanted: &ShimFit, rounding: ShimRounding) -> Option<Nominal> {
        if let Ok(choice) = self.nearest(wanted, rounding) {
            return Some(choice.size);
        }
        let is_thin = wanted.wanted().ok()? < self.first.nominal();
        Some(if is_thin { self.first } else { self.last }.nominal())
    }

    /// The sizes on either side of the exact thickness, thinner first: one if the series has that
    /// thickness or ends before it.
    pub(super) fn beside(&self, wanted: &ShimFit) -> Vec<Nominal> {
        let Ok(exact) = wanted.wanted() else {
            return Vec::new();
        };
        let [from, to, by] = self.nanometres();
        let inside = exact.nanometres().clamp(from, to) - from;
        let (steps, over) = (inside / by, inside % by);
        let ends = [steps, steps + i64::from(over > 0)];
        let mut sizes: Vec<Nominal> = ends
            .iter()
            .filter_map(|step| Nominal::from_nanometres(from + step * by).ok())
            .collect();
        sizes.dedup();
        sizes
    }
}
