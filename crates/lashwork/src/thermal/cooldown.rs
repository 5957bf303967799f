//! How an engine comes to the temperature of its surroundings.

use super::ThermalError;
use crate::quantity::Temperature;
use crate::quantity::si::{each_minute, kelvins, minutes, plain};
use serde::Serialize;

/// Cooling by Newton's law: the difference to the surroundings falls by the same share each minute.
///
/// ```
/// use lashwork::quantity::Temperature;
/// use lashwork::thermal::CoolDown;
/// let cooling = CoolDown {
///     surroundings: Temperature::from_celsius(20.0)?,
///     start: Temperature::from_celsius(180.0)?,
///     per_minute: 0.047,
///     per_minute_u: 0.0,
/// };
/// let minutes = cooling.minutes_until(Temperature::from_celsius(40.0)?).ok_or("never")?;
/// assert!((minutes - 44.24).abs() < 0.01);
/// assert!((cooling.temperature_at(minutes)?.celsius() - 40.0).abs() < 1e-9);
/// assert_eq!(cooling.minutes_until(Temperature::from_celsius(20.0)?), None);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct CoolDown {
    /// Temperature of the surroundings, which the engine reaches last.
    pub surroundings: Temperature,
    /// Temperature at minute 0.
    pub start: Temperature,
    /// Share of the difference that goes each minute (1/min).
    pub per_minute: f64,
    /// Its standard uncertainty (1/min).
    pub per_minute_u: f64,
}

impl CoolDown {
    /// The temperature so many minutes `after` the start.
    ///
    /// # Errors
    /// [`ThermalError::Quantity`] if the result is no possible temperature.
    ///
    /// # Source
    /// Newton's law of cooling: T = Ta + (T0 - Ta) exp(-k t).
    pub fn temperature_at(&self, after: f64) -> Result<Temperature, ThermalError> {
        let above = kelvins((self.start - self.surroundings).kelvin());
        let gone = -each_minute(self.per_minute) * minutes(after);
        let left = above * plain(libm::exp(gone.value));
        Ok(Temperature::from_celsius(
            self.surroundings.celsius() + left.value,
        )?)
    }

    /// Minutes from the start until the engine is at `target`; 0 if it is past it already, `None`
    /// if it never gets there: the surroundings themselves are reached only in the end.
    ///
    /// # Source
    /// Newton's law solved for the time.
    #[must_use]
    pub fn minutes_until(&self, target: Temperature) -> Option<f64> {
        let above = kelvins((self.start - self.surroundings).kelvin());
        let left = kelvins((target - self.surroundings).kelvin());
        let time = plain(libm::log((above / left).value)) / each_minute(self.per_minute);
        let gets_there = above.value * left.value > 0.0 && self.per_minute > 0.0;
        (gets_there && time.is_finite()).then(|| time.value.max(0.0))
    }
}
