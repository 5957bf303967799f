//! A correction by a coefficient without its budget in words: for loops over many readings.

use super::{LashCoefficient, ThermalError};
use crate::quantity::{Lash, LashChange, Temperature, TemperatureDifference};
use crate::statistics::Proportion;
use crate::tolerance::{BudgetError, Uncertainty, wider};
use alloc::string::String;

impl LashCoefficient {
    /// Whether the uncertainty of a coefficient, or of a temperature, can be so much.
    #[inline]
    pub(crate) fn can_be_spread(number: f64) -> bool {
        (0.0..f64::INFINITY).contains(&number)
    }

    /// The change of lash from the reference to the temperature of the reading, and its standard
    /// uncertainty; the same bits as [`LashCoefficient::correction`].
    ///
    /// # Errors
    /// [`ThermalError`]: a negative or infinite uncertainty, a change or uncertainty too large for a
    /// lash.
    ///
    /// ```
    /// use lashwork::quantity::{Temperature, TemperatureDifference};
    /// use lashwork::thermal::LashCoefficient;
    /// let fitted = LashCoefficient::new(0.001, 0.000_1, None)?;
    /// let (change, u) = fitted.shift(
    ///     Temperature::from_celsius(50.0)?,
    ///     TemperatureDifference::from_kelvin(4.0)?,
    ///     Temperature::from_celsius(20.0)?,
    /// )?;
    /// assert!((change.mm() - 0.03).abs() < 1e-15 && (u.mm() - 0.005).abs() < 1e-15);
    /// # Ok::<(), lashwork::thermal::ThermalError>(())
    /// ```
    pub fn shift(
        &self,
        at: Temperature,
        u_at: TemperatureDifference,
        reference: Temperature,
    ) -> Result<(LashChange, Uncertainty<Lash>), ThermalError> {
        let effect = Proportion {
            rise: (at - reference).kelvin(),
            rise_u: u_at.kelvin(),
            slope: self.mm_per_kelvin,
            slope_u: self.standard_uncertainty,
        };
        let change = LashChange::from_mm(effect.change())?;
        for (of, got) in [
            ("change of lash for a kelvin", self.standard_uncertainty),
            ("temperature of the engine", u_at.kelvin()),
        ] {
            if !Self::can_be_spread(got) {
                let of = String::from(of);
                return Err(BudgetError::Uncertainty { of, got }.into());
            }
        }
        let (by_coefficient, by_temperature) = effect.spreads();
        let u = libm::hypot(
            by_coefficient * wider(self.degrees_of_freedom),
            by_temperature,
        );
        let u = Uncertainty::from_mm(u).map_err(|_| ThermalError::Uncertainty {
            of: String::from("correction"),
            got: u,
        })?;
        Ok((change, u))
    }
}
