//! The law of cooling fitted to temperatures and times, with the uncertainty of what it says.
//!
//! # Method
//! `T = Ta + D exp(-k t)`, least squares. The temperature of the surroundings, where it was measured,
//! is one more reading, taken at the end of all time; where it was not, three readings that bend
//! are needed. For a given `k` the law is linear in the other two, so that only `k` is searched:
//! the least sum of squares on a grid over its logarithm, then the zero of the sum's slope between
//! the neighbours by halving. The covariance is the inverse of the normal matrix at the solution,
//! widened by the scatter of the readings where that is more than was stated.
//!
//! # Source
//! Newton's law of cooling. Separable least squares: Golub and Pereyra 1973. Covariance: JCGM
//! 100:2008, H.3 (a fit by least squares and what is predicted from it).

use super::{CoolDown, ThermalError};
use crate::quantity::{Elapsed, Temperature, TemperatureDifference};
use alloc::vec::Vec;

/// A temperature of the metal and when it was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoolingReading {
    /// Time by a watch, from any start.
    pub after: Elapsed,
    /// Temperature then.
    pub temperature: Temperature,
}

/// The law of cooling as fitted, with its covariance.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::quantity::{Elapsed, Temperature, TemperatureDifference};
/// use lashwork::thermal::{CoolingFit, CoolingReading};
/// let reading = |minutes, celsius| -> Result<_, lashwork::quantity::QuantityError> {
///     let after = Elapsed::from_minutes(minutes)?;
///     Ok(CoolingReading { after, temperature: Temperature::from_celsius(celsius)? })
/// };
/// let readings = [reading(0.0, 180.0)?, reading(10.0, 120.0)?];
/// let air = Temperature::from_celsius(20.0)?;
/// let fit = CoolingFit::new(&readings, Some(air), TemperatureDifference::from_kelvin(0.5)?)?;
/// assert!((fit.cooling().per_minute - 0.047).abs() < 1e-4);
/// assert!((fit.now()?.celsius() - 120.0).abs() < 1e-6);
/// let warming = [reading(0.0, 60.0)?, reading(10.0, 90.0)?];
/// let error = CoolingFit::new(&warming, Some(air), TemperatureDifference::from_kelvin(0.5)?);
/// assert_eq!(error.unwrap_err().code(), "thermal.not-cooling");
/// # Ok::<(), lashwork::thermal::ThermalError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoolingFit {
    cooling: CoolDown,
    above: f64,
    covariance: [[f64; 3]; 3],
    scatter: Option<f64>,
    degrees_of_freedom: usize,
    last: f64,
}

impl CoolingFit {
    /// Most readings that are taken.
    pub const MAX_READINGS: usize = 1000;

    /// Fits the law. `thermometer` is the standard uncertainty of every reading, that of the
    /// surroundings included, as far as it differs from reading to reading.
    ///
    /// # Units
    /// Minute 0 of the fit is the first reading.
    ///
    /// # Errors
    /// [`ThermalError::Uncertainty`] if the thermometer's is not above zero;
    /// [`ThermalError::TooFewReadings`] below two, or three without the surroundings;
    /// [`ThermalError::TooManyReadings`]; [`ThermalError::Times`] if they do not go on;
    /// [`ThermalError::NotCooling`] if a temperature lies below the surroundings or above the one
    /// before it by more than the thermometer explains; [`ThermalError::NoBend`] if the readings
    /// do not tell how fast the metal cools, or towards what.
    ///
    /// # Source
    /// The module's method. Three times the standard uncertainty of a difference is what a
    /// thermometer explains: this library's choice.
    pub fn new(
        readings: &[CoolingReading],
        surroundings: Option<Temperature>,
        thermometer: TemperatureDifference,
    ) -> Result<Self, ThermalError> {
        let u = thermometer.kelvin();
        check(readings, surroundings, u)?;
        let start = readings.first().map_or(0.0, |r| r.after.minutes());
        let mut rows: Vec<(f64, f64)> = readings
            .iter()
            .map(|r| (r.after.minutes() - start, r.temperature.celsius()))
            .collect();
        let last = rows.last().map_or(0.0, |(t, _)| *t);
        if let Some(air) = surroundings {
            rows.push((f64::INFINITY, air.celsius()));
        }
        let points = super::cooling_points::Points { rows: &rows, last };
        let rate = points.rate()?;
        let line = points.line(rate);
        // T = first - slope (1 - exp(-k t)) / k: the surroundings lie slope / k below the first.
        let above = line.slope / rate;
        let air = line.first - above;
        if above <= 0.0 {
            return Err(ThermalError::NotCooling { surroundings: air });
        }
        let degrees_of_freedom = rows.len() - 3;
        let scatter = (degrees_of_freedom > 0)
            .then(|| libm::sqrt(points.squares(rate) / degrees_of_freedom as f64) / u);
        let widened = u * scatter.unwrap_or(1.0).max(1.0);
        let covariance = points
            .covariance(rate, above, widened)
            .ok_or(ThermalError::NoBend)?;
        let [_, _, [_, _, variance]] = covariance;
        Ok(Self {
            cooling: CoolDown {
                surroundings: Temperature::from_celsius(air)?,
                start: Temperature::from_celsius(line.first)?,
                per_minute: rate,
                per_minute_u: libm::sqrt(variance),
            },
            above,
            covariance,
            scatter,
            degrees_of_freedom,
            last,
        })
    }

    /// The law; its minute 0 is the first reading.
    #[must_use]
    pub const fn cooling(&self) -> CoolDown {
        self.cooling
    }

    /// Covariance of the surroundings (C), the start above them (K) and the rate (1/min).
    #[must_use]
    pub const fn covariance(&self) -> [[f64; 3]; 3] {
        self.covariance
    }

    /// Standard uncertainty of the temperature of the surroundings, in kelvin.
    #[must_use]
    pub fn surroundings_u(&self) -> f64 {
        let [[variance, _, _], _, _] = self.covariance;
        libm::sqrt(variance)
    }

    /// Scatter of the readings over the thermometer's uncertainty; `None` if none is left over.
    #[must_use]
    pub const fn scatter(&self) -> Option<f64> {
        self.scatter
    }

    /// Readings more than the three that the law needs.
    #[must_use]
    pub const fn degrees_of_freedom(&self) -> usize {
        self.degrees_of_freedom
    }

    /// Minutes from the first reading to the last, which is now.
    #[must_use]
    pub const fn last_minute(&self) -> f64 {
        self.last
    }

    /// The temperature at the last reading, by the law.
    ///
    /// # Errors
    /// [`ThermalError::Quantity`] if it is no possible temperature.
    pub fn now(&self) -> Result<Temperature, ThermalError> {
        self.cooling.temperature_at(self.last)
    }

    /// Minutes from the first reading until the metal is at `target`, and their standard
    /// uncertainty; `None` if it never gets there.
    ///
    /// # Source
    /// Newton's law solved for the time; JCGM 100:2008, 5.2.2 with the fit's covariance.
    ///
    /// ```
    /// # use lashwork::quantity::{Elapsed, Temperature, TemperatureDifference};
    /// # use lashwork::thermal::{CoolingFit, CoolingReading};
    /// # let reading = |minutes, celsius| -> Result<_, lashwork::quantity::QuantityError> {
    /// #     let after = Elapsed::from_minutes(minutes)?;
    /// #     Ok(CoolingReading { after, temperature: Temperature::from_celsius(celsius)? })
    /// # };
    /// let readings = [reading(0.0, 180.0)?, reading(10.0, 120.0)?];
    /// let air = Temperature::from_celsius(20.0)?;
    /// let fit = CoolingFit::new(&readings, Some(air), TemperatureDifference::from_kelvin(0.5)?)?;
    /// let (minutes, u) = fit.minutes_until(Temperature::from_celsius(40.0)?).ok_or("never")?;
    /// assert!((minutes - 44.24).abs() < 0.01 && u > 0.0);
    /// assert_eq!(fit.minutes_until(Temperature::from_celsius(20.0)?), None);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn minutes_until(&self, target: Temperature) -> Option<(f64, f64)> {
        let rate = self.cooling.per_minute;
        let left = (target - self.cooling.surroundings).kelvin();
        let minutes = libm::log(self.above / left) / rate;
        if !(left > 0.0 && minutes.is_finite()) {
            return None;
        }
        let gradient = [
            1.0 / (rate * left),
            1.0 / (rate * self.above),
            -minutes / rate,
        ];
        let mut variance = 0.0;
        for (row, by_row) in self.covariance.iter().zip(gradient) {
            for (covariance, by_column) in row.iter().zip(gradient) {
                variance += by_row * covariance * by_column;
            }
        }
        Some((minutes, libm::sqrt(variance.max(0.0))))
    }
}

/// Refuses readings that no cooling makes.
fn check(
    readings: &[CoolingReading],
    surroundings: Option<Temperature>,
    u: f64,
) -> Result<(), ThermalError> {
    if !(u > 0.0 && u.is_finite()) {
        return Err(ThermalError::Uncertainty {
            of: "thermometer".into(),
            got: u,
        });
    }
    let needed = if surroundings.is_some() { 2 } else { 3 };
    if readings.len() < needed {
        return Err(ThermalError::TooFewReadings {
            got: readings.len(),
            needed,
        });
    }
    if readings.len() > CoolingFit::MAX_READINGS {
        return Err(ThermalError::TooManyReadings {
            got: readings.len(),
            max: CoolingFit::MAX_READINGS,
        });
    }
    let explained = 3.0 * core::f64::consts::SQRT_2 * u;
    let coldest = readings.last().map_or(0.0, |r| r.temperature.celsius());
    let not_cooling = |surroundings: f64| Err(ThermalError::NotCooling { surroundings });
    for (reading, pair) in (1..).zip(readings.windows(2)) {
        let [a, b] = pair else { continue };
        if a.after >= b.after {
            return Err(ThermalError::Times {
                reading,
                before: a.after.minutes(),
                after: b.after.minutes(),
            });
        }
        if (b.temperature - a.temperature).kelvin() > explained {
            return not_cooling(surroundings.map_or(coldest, Temperature::celsius));
        }
    }
    if let Some(air) = surroundings
        && readings
            .iter()
            .any(|r| (air - r.temperature).kelvin() > explained)
    {
        return not_cooling(air.celsius());
    }
    Ok(())
}
