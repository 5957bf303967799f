//! A correction by a coefficient without its budget in words: for loops over many readings.

use super::{LashCoefficient, ThermalError};
use crate::quantity::{Lash, LashChange, Temperature, TemperatureDifference};
use crate::tolerance::{BudgetError, Uncertainty, wider};
use alloc::string::String;

impl LashCoefficient {
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
        let rise = (at - reference).kelvin();
        let change = LashChange::from_mm(self.mm_per_kelvin * rise)?;
        for (of, got) in [
            ("change of lash for a kelvin", self.standard_uncertainty),
            ("temperature of the engine", u_at.kelvin()),
        ] {
            if !(got >= 0.0 && got.is_finite()) {
                let of = String::from(of);
                return Err(BudgetError::Uncertainty { of, got }.into());
            }
        }
        let by_coefficient =
            (rise * self.standard_uncertainty).abs() * wider(self.degrees_of_freedom);
        let by_temperature = (self.mm_per_kelvin * u_at.kelvin()).abs();
        let u = libm::hypot(by_coefficient, by_temperature);
        let u = Uncertainty::from_mm(u).map_err(|_| ThermalError::Uncertainty {
            of: String::from("correction"),
            got: u,
        })?;
        Ok((change, u))
    }
}
