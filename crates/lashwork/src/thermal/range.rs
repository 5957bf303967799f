//! The temperatures of a table.

use super::ThermalError;
use crate::quantity::{Temperature, TemperatureDifference};
use alloc::vec::Vec;

/// Temperatures from one to another in equal steps.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::quantity::{Temperature, TemperatureDifference};
/// use lashwork::thermal::TemperatureRange;
/// let c = |celsius| Temperature::from_celsius(celsius);
/// let k = |kelvin| TemperatureDifference::from_kelvin(kelvin);
/// let range = TemperatureRange::new(c(20.0)?, c(95.0)?, k(25.0)?)?;
/// assert_eq!(range.points()?, [c(20.0)?, c(45.0)?, c(70.0)?, c(95.0)?]);
/// // A step that does not divide the range ends short of it.
/// assert_eq!(TemperatureRange::new(c(20.0)?, c(90.0)?, k(25.0)?)?.points()?.len(), 3);
/// let none = TemperatureRange::new(c(20.0)?, c(95.0)?, k(0.0)?);
/// assert_eq!(none.unwrap_err().code(), "thermal.range-step");
/// # Ok::<(), lashwork::thermal::ThermalError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TemperatureRange {
    from: Temperature,
    step: TemperatureDifference,
    count: u32,
}

impl TemperatureRange {
    /// Most temperatures in a table.
    pub const MAX_POINTS: u32 = 200;

    /// Takes both ends and the step. A last step that would pass the end is left out.
    ///
    /// # Errors
    /// [`ThermalError::RangeStep`] if the step is not above zero; [`ThermalError::RangeOrder`] if it
    /// starts above its end; [`ThermalError::RangePoints`] if it has more than
    /// [`Self::MAX_POINTS`] temperatures.
    pub fn new(
        from: Temperature,
        to: Temperature,
        step: TemperatureDifference,
    ) -> Result<Self, ThermalError> {
        /// Kelvin keep a decimal only to the last bits; an end that is hit is in.
        const ROUNDING: f64 = 1e-9;
        if step.kelvin() <= 0.0 {
            return Err(ThermalError::RangeStep { got: step.kelvin() });
        }
        if from > to {
            return Err(ThermalError::RangeOrder {
                from: from.celsius(),
                to: to.celsius(),
            });
        }
        let most = f64::from(Self::MAX_POINTS);
        let steps = libm::floor((to - from).kelvin() / step.kelvin() + ROUNDING);
        let mut count = 1;
        while f64::from(count) <= steps && count <= Self::MAX_POINTS {
            count += 1;
        }
        if steps >= most {
            return Err(ThermalError::RangePoints {
                got: steps + 1.0,
                max: Self::MAX_POINTS,
            });
        }
        Ok(Self { from, step, count })
    }

    /// The temperatures, rising.
    ///
    /// # Errors
    /// [`ThermalError::Quantity`]; none in practice, both ends being temperatures.
    pub fn points(&self) -> Result<Vec<Temperature>, ThermalError> {
        let at = |i: u32| {
            let celsius = self.from.celsius() + f64::from(i) * self.step.kelvin();
            Ok(Temperature::from_celsius(celsius)?)
        };
        (0..self.count).map(at).collect()
    }
}
