//! How long to wait until a thermal correction is certain enough.

use super::{CoolingFit, ThermalError};
use crate::quantity::{Elapsed, Lash, Temperature};
use crate::tolerance::Uncertainty;
use serde::Serialize;

/// Steps from the temperature now to that of the surroundings.
const STEPS: u32 = 200;
/// Halvings of a step, and thirds of the two about the lowest point.
const REFINED: u32 = 60;

/// How long to wait, counted from the last reading of the cooling.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case", tag = "answer")]
#[non_exhaustive]
pub enum Wait {
    /// The correction is certain enough now.
    Already,
    /// It never will be: not even at the temperature of the surroundings.
    Never,
    /// Longer than the readings can tell.
    BeyondReach {
        /// The temperature to wait for.
        at: Temperature,
    },
    /// This long.
    For {
        /// The time.
        time: Elapsed,
        /// Its standard uncertainty.
        uncertainty: Elapsed,
        /// The temperature of the metal then.
        at: Temperature,
        /// Whether the correction stays certain enough down to the temperature of the surroundings; if
        /// not, the reading must not be taken much later.
        stays: bool,
    },
}

impl CoolingFit {
    /// How long from the last reading until the standard uncertainty of the correction is at most
    /// `limit`; `uncertainty_at` is that of the correction with the metal at a temperature.
    ///
    /// An answer is beyond reach where the target is within two standard uncertainties of the
    /// surroundings', or where the time since the first reading is known to no better than half of it:
    /// there the law is nearly flat and an uncertainty of first order says nothing (this library's
    /// choice).
    ///
    /// # Errors
    /// What `uncertainty_at` refuses; [`ThermalError::Quantity`] if a result is no possible one.
    ///
    /// # Source
    /// First crossing of the limit on a grid in temperature, refined by halving; the uncertainty by
    /// [`Self::minutes_until`].
    ///
    /// ```
    /// use lashwork::quantity::{Elapsed, Temperature, TemperatureDifference};
    /// use lashwork::thermal::{CoolingFit, CoolingReading, LashCoefficient, Wait};
    /// use lashwork::tolerance::Uncertainty;
    /// let reading = |minutes, celsius| -> Result<_, lashwork::quantity::QuantityError> {
    ///     let after = Elapsed::from_minutes(minutes)?;
    ///     Ok(CoolingReading { after, temperature: Temperature::from_celsius(celsius)? })
    /// };
    /// let air = Temperature::from_celsius(20.0)?;
    /// let readings = [reading(0.0, 95.0)?, reading(30.0, 61.0)?];
    /// let one = TemperatureDifference::from_kelvin(1.0)?;
    /// let fit = CoolingFit::new(&readings, Some(air), one)?;
    /// let opens = LashCoefficient::new(0.001, 0.0002, None)?;
    /// let at = |t| Ok(Uncertainty::from_mm(opens.correction(t, one, air)?.standard_uncertainty_mm())?);
    /// let wait = |mm| fit.wait(Uncertainty::from_mm(mm)?, at);
    /// assert_eq!(wait(0.02)?, Wait::Already);
    /// assert_eq!(wait(0.0009)?, Wait::Never);
    /// let Wait::For { time, uncertainty, .. } = wait(0.005)? else { return Err("no time")? };
    /// assert!((time.minutes() - 25.6).abs() < 0.5 && uncertainty.minutes() > 0.5);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn wait(
        &self,
        limit: Uncertainty<Lash>,
        uncertainty_at: impl Fn(Temperature) -> Result<Uncertainty<Lash>, ThermalError>,
    ) -> Result<Wait, ThermalError> {
        let hot = self.now()?.celsius();
        let cold = self.cooling().surroundings.celsius();
        // `share` of the way down.
        let at = |share: f64| Temperature::from_celsius(hot + share * (cold - hot));
        let over = |share: f64| -> Result<f64, ThermalError> {
            Ok(uncertainty_at(at(share)?)?.mm() - limit.mm())
        };
        if over(0.0)? <= 0.0 {
            return Ok(Wait::Already);
        }
        let step = |i: u32| f64::from(i) / f64::from(STEPS);
        let (mut lowest, mut enough) = ((0, f64::INFINITY), None);
        for i in 1..=STEPS {
            let over = over(step(i))?;
            if over <= 0.0 {
                enough = Some(step(i));
                lowest.0 = i;
                break;
            }
            if over < lowest.1 {
                lowest = (i, over);
            }
        }
        let mut not_yet = step(lowest.0.saturating_sub(1));
        if enough.is_none() {
            // A dip between two steps, as where the metal passes the reference temperature.
            let (mut left, mut right) = (not_yet, step((lowest.0 + 1).min(STEPS)));
            for _ in 0..REFINED {
                let third = (right - left) / 3.0;
                if over(left + third)? <= over(right - third)? {
                    right -= third;
                } else {
                    left += third;
                }
            }
            let dip = 0.5 * (left + right);
            enough = (over(dip)? <= 0.0).then_some(dip);
        }
        let Some(mut enough) = enough else {
            return Ok(Wait::Never);
        };
        for _ in 0..REFINED {
            let middle = 0.5 * (not_yet + enough);
            if over(middle)? <= 0.0 {
                enough = middle;
            } else {
                not_yet = middle;
            }
        }
        let target = at(enough)?;
        let left = (target - self.cooling().surroundings).kelvin();
        let reached = self
            .minutes_until(target)
            .filter(|(minutes, u)| left > 2.0 * self.surroundings_u() && *u <= 0.5 * minutes);
        let Some((minutes, u)) = reached else {
            return Ok(Wait::BeyondReach { at: target });
        };
        let time = Elapsed::from_minutes((minutes - self.last_minute()).max(0.0));
        let (Ok(time), Ok(uncertainty)) = (time, Elapsed::from_minutes(u)) else {
            return Ok(Wait::BeyondReach { at: target });
        };
        Ok(Wait::For {
            time,
            uncertainty,
            at: target,
            stays: over(1.0)? <= 0.0,
        })
    }
}
