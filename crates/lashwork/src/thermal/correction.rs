//! A correction of a reading and its uncertainty.

use crate::quantity::{Lash, LashChange};
use crate::tolerance::{Budget, Contribution};
use alloc::string::String;
use serde::Serialize;

/// What the temperatures of a reading did to the lash.
///
/// ```
/// use lashwork::quantity::{Lash, Temperature, TemperatureDifference};
/// use lashwork::thermal::LashCoefficient;
/// let opens = LashCoefficient::new(0.001, 0.0002, None)?;
/// let correction = opens.correction(
///     Temperature::from_celsius(70.0)?,
///     TemperatureDifference::from_kelvin(2.0)?,
///     Temperature::from_celsius(20.0)?,
/// )?;
/// let cold = correction.apply(Lash::from_mm(0.25)?)?;
/// assert!((cold.mm() - 0.20).abs() < 1e-12);
/// assert!((correction.standard_uncertainty_mm() - 0.0102).abs() < 1e-4);
/// # Ok::<(), lashwork::thermal::ThermalError>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Correction {
    /// Lash at the temperatures of the reading minus lash at the reference: subtract it.
    pub change: LashChange,
    /// Where the uncertainty of the change comes from, in millimetres.
    pub budget: Budget,
    /// Made once: it is asked for again and again.
    #[serde(skip)]
    widened: f64,
}

impl Correction {
    pub(super) fn new(change: LashChange, budget: Budget) -> Self {
        let widened = budget.widened();
        Self {
            change,
            budget,
            widened,
        }
    }

    /// The reading brought to the reference temperature.
    ///
    /// # Errors
    /// [`ThermalError::Quantity`](super::ThermalError::Quantity) if the result is no possible lash.
    ///
    /// # Source
    /// JCGM 100:2008, 3.2.3 and 3.2.4: a known effect is corrected, the uncertainty of the correction
    /// stays.
    pub fn apply(&self, reading: Lash) -> Result<Lash, super::ThermalError> {
        Ok(Lash::from_mm(reading.mm() - self.change.mm())?)
    }

    /// Standard uncertainty of the change, in millimetres; where few readings made it, that of the
    /// normal distribution which stands for it: [`Budget::widened`].
    ///
    /// # Source
    /// JCGM 100:2008, 5.1.2.
    #[must_use]
    pub const fn standard_uncertainty_mm(&self) -> f64 {
        self.widened
    }

    /// The same with one more source of uncertainty, independent of the others.
    pub(super) fn with_doubt(
        self,
        source: String,
        standard_uncertainty: f64,
        sensitivity: f64,
    ) -> Result<Self, super::ThermalError> {
        let mut lines = self.budget.contributions().to_vec();
        lines.push(Contribution {
            source,
            standard_uncertainty,
            sensitivity,
            degrees_of_freedom: None,
        });
        Ok(Self::new(self.change, Budget::new(lines)?))
    }

    /// How far apart two corrections of the same reading are, as by a chain and by a fit, counted in
    /// standard uncertainties of their difference: over about 2 one of them is wrong. `None` if
    /// neither has any uncertainty.
    ///
    /// # Source
    /// Two independent results: |a - b| over the root of the sum of their squared uncertainties
    /// (JCGM 100:2008, 5.1.2, of a difference).
    ///
    /// ```
    /// use lashwork::quantity::{Temperature, TemperatureDifference};
    /// use lashwork::thermal::LashCoefficient;
    /// let by = |mm_per_kelvin, u| LashCoefficient::new(mm_per_kelvin, u, None)?.correction(
    ///     Temperature::from_celsius(70.0)?,
    ///     TemperatureDifference::from_kelvin(0.0)?,
    ///     Temperature::from_celsius(20.0)?,
    /// );
    /// let apart = by(0.0020, 0.0003)?.apart(&by(0.0010, 0.0004)?).ok_or("no uncertainty")?;
    /// assert!((apart - 2.0).abs() < 1e-9);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn apart(&self, other: &Self) -> Option<f64> {
        let difference = (self.change.mm() - other.change.mm()).abs();
        let u = libm::hypot(self.budget.combined(), other.budget.combined());
        let apart = difference / u;
        apart.is_finite().then_some(apart)
    }
}
