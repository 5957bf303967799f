//! How an engine comes to the temperature of its surroundings.

use super::ThermalError;
use crate::quantity::Temperature;
use crate::statistics::straight_line;
use alloc::vec::Vec;
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
    /// The temperature so many minutes after the start.
    ///
    /// # Errors
    /// [`ThermalError::Quantity`] if the result is no possible temperature.
    ///
    /// # Source
    /// Newton's law of cooling: T = Ta + (T0 - Ta) exp(-k t).
    pub fn temperature_at(&self, minutes: f64) -> Result<Temperature, ThermalError> {
        let above = (self.start - self.surroundings).kelvin();
        let left = above * libm::exp(-self.per_minute * minutes);
        Ok(Temperature::from_celsius(
            self.surroundings.celsius() + left,
        )?)
    }

    /// Minutes from the start until the engine is at `target`; 0 if it is past it already, `None`
    /// if it never gets there: the surroundings themselves are reached only in the end.
    ///
    /// # Source
    /// Newton's law solved for the time.
    #[must_use]
    pub fn minutes_until(&self, target: Temperature) -> Option<f64> {
        let above = (self.start - self.surroundings).kelvin();
        let left = (target - self.surroundings).kelvin();
        let minutes = libm::log(above / left) / self.per_minute;
        (above * left > 0.0 && self.per_minute > 0.0 && minutes.is_finite())
            .then(|| minutes.max(0.0))
    }
}

/// Fits the law to readings `(minutes, temperature, standard uncertainty in kelvin)` in
/// surroundings of known temperature.
///
/// # Units
/// Minutes; kelvin.
///
/// # Errors
/// [`ThermalError::NotCooling`] if a reading is at or across the temperature of the surroundings,
/// or the readings run away from it; [`ThermalError::TooFewReadings`];
/// [`ThermalError::OneTemperature`] if all are of one minute; [`ThermalError::Uncertainty`].
///
/// # Source
/// Weighted least squares on the logarithm of the difference ([`straight_line`]).
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::quantity::Temperature;
/// use lashwork::thermal::fit_cool_down;
/// let air = Temperature::from_celsius(20.0)?;
/// let hot = (0.0, Temperature::from_celsius(95.0)?, 0.5);
/// let warm = (30.0, Temperature::from_celsius(61.0)?, 0.5);
/// assert!((fit_cool_down(air, &[hot, warm])?.per_minute - 0.02).abs() < 5e-4);
/// let error = fit_cool_down(warm.1, &[hot, warm]).unwrap_err();
/// assert_eq!(error.code(), "thermal.not-cooling");
/// # Ok::<(), lashwork::thermal::ThermalError>(())
/// ```
pub fn fit_cool_down(
    surroundings: Temperature,
    readings: &[(f64, Temperature, f64)],
) -> Result<CoolDown, ThermalError> {
    let not_cooling = ThermalError::NotCooling {
        surroundings: surroundings.celsius(),
    };
    let above = |t: Temperature| (t - surroundings).kelvin();
    let side = readings.first().map_or(0.0, |(_, t, _)| above(*t).signum());
    if readings.iter().any(|(_, t, _)| above(*t) * side <= 0.0) {
        return Err(not_cooling);
    }
    let x: Vec<f64> = readings.iter().map(|(minutes, _, _)| *minutes).collect();
    let y: Vec<f64> = readings
        .iter()
        .map(|(_, t, _)| libm::log(above(*t).abs()))
        .collect();
    let u: Vec<f64> = readings
        .iter()
        .map(|(_, t, u)| u / above(*t).abs())
        .collect();
    let line = straight_line(&x, &y, &u)?;
    if line.slope >= 0.0 {
        return Err(not_cooling);
    }
    let widen = line.residual_sd.unwrap_or(1.0).max(1.0);
    Ok(CoolDown {
        surroundings,
        start: Temperature::from_celsius(
            surroundings.celsius() + side * libm::exp(line.intercept),
        )?,
        per_minute: -line.slope,
        per_minute_u: line.slope_u * widen,
    })
}

/// The temperature of the surroundings from three readings equally far apart in time.
///
/// # Errors
/// [`ThermalError::NotCooling`] if the drops do not shrink; [`ThermalError::Quantity`] if the
/// result is no possible temperature.
///
/// # Source
/// Newton's law: equal times leave equal shares, (T1 - Ta)^2 = (T0 - Ta)(T2 - Ta).
///
/// ```
/// use lashwork::quantity::Temperature;
/// use lashwork::thermal::surroundings_from_three;
/// let t = |c| Temperature::from_celsius(c);
/// let air = surroundings_from_three(t(70.0)?, t(60.0)?, t(53.0)?)?;
/// assert!((air.celsius() - 36.667).abs() < 1e-3);
/// # Ok::<(), lashwork::thermal::ThermalError>(())
/// ```
pub fn surroundings_from_three(
    first: Temperature,
    second: Temperature,
    third: Temperature,
) -> Result<Temperature, ThermalError> {
    let early = (first - second).kelvin();
    let late = (second - third).kelvin();
    if early * late <= 0.0 || late.abs() >= early.abs() {
        return Err(ThermalError::NotCooling {
            surroundings: third.celsius(),
        });
    }
    // Written about the last reading: Ta = T2 - late^2 / (early - late).
    let below = late * late / (early - late);
    Ok(Temperature::from_celsius(third.celsius() - below)?)
}
