//! How a valve's lash follows temperature, from readings.

use super::{Correction, ThermalError};
use crate::Whole;
use crate::quantity::{Lash, LashChange, Temperature, TemperatureDifference, si};
use crate::statistics::{Line, straight_line};
use crate::tolerance::{Budget, Contribution};
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// How much a valve's lash changes for a kelvin.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LashCoefficient {
    /// Change of lash for a kelvin, in millimetres; positive opens when warm.
    pub mm_per_kelvin: f64,
    /// Its standard uncertainty, in millimetres per kelvin.
    pub standard_uncertainty: f64,
    /// Degrees of freedom of the uncertainty; `None` is infinitely many.
    pub degrees_of_freedom: Option<f64>,
    #[serde(skip)]
    whole: Whole,
}

impl LashCoefficient {
    /// Takes the change in millimetres for a kelvin, its standard uncertainty, and the degrees of freedom of
    /// that; they are checked where they are used.
    ///
    /// # Errors
    /// [`ThermalError::LeftOut`] without the feature `whole`.
    ///
    /// ```
    /// use lashwork::thermal::LashCoefficient;
    /// let opens = LashCoefficient::new(0.001, 0.0002, None)?;
    /// assert_eq!(opens.mm_per_kelvin, 0.001);
    /// # Ok::<(), lashwork::thermal::ThermalError>(())
    /// ```
    pub fn new(
        mm_per_kelvin: f64,
        standard_uncertainty: f64,
        degrees_of_freedom: Option<f64>,
    ) -> Result<Self, ThermalError> {
        Ok(Self {
            mm_per_kelvin,
            standard_uncertainty,
            degrees_of_freedom,
            whole: Whole::here()?,
        })
    }

    /// The change of lash from a reference temperature to that of the reading.
    ///
    /// # Units
    /// The budget is in millimetres of lash.
    ///
    /// # Errors
    /// [`ThermalError::Budget`] if an uncertainty is negative or a number not finite;
    /// [`ThermalError::Quantity`] if the change is no possible one.
    ///
    /// # Source
    /// First-order propagation, JCGM 100:2008, 5.1.2.
    ///
    /// ```
    /// use lashwork::quantity::{Temperature, TemperatureDifference};
    /// use lashwork::thermal::LashCoefficient;
    /// let closes = LashCoefficient::new(-0.0005, 0.0, None)?;
    /// let correction = closes.correction(
    ///     Temperature::from_celsius(80.0)?,
    ///     TemperatureDifference::from_kelvin(2.0)?,
    ///     Temperature::from_celsius(20.0)?,
    /// )?;
    /// assert!((correction.change.mm() + 0.03).abs() < 1e-12);
    /// assert!((correction.standard_uncertainty_mm() - 0.001).abs() < 1e-12);
    /// # Ok::<(), lashwork::thermal::ThermalError>(())
    /// ```
    pub fn correction(
        &self,
        at: Temperature,
        u_at: TemperatureDifference,
        reference: Temperature,
    ) -> Result<Correction, ThermalError> {
        let slope = si::millimetres(self.mm_per_kelvin) / si::kelvins(1.0);
        let rise = at - reference;
        Ok(Correction::new(
            LashChange::of_si(slope * rise.si())?,
            Budget::new(alloc::vec![
                Contribution {
                    source: String::from("change of lash for a kelvin"),
                    standard_uncertainty: self.standard_uncertainty,
                    sensitivity: rise.kelvin(),
                    degrees_of_freedom: self.degrees_of_freedom,
                },
                Contribution {
                    source: String::from("temperature of the engine"),
                    standard_uncertainty: u_at.kelvin(),
                    sensitivity: self.mm_per_kelvin,
                    degrees_of_freedom: None,
                },
            ])?,
        ))
    }
}

/// A lash coefficient from readings, and the line behind it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Fit {
    /// The coefficient with the larger of its two uncertainties: from the stated ones, or from the
    /// residuals where these scatter more than stated.
    pub coefficient: LashCoefficient,
    /// Lash at 20 C by the line.
    pub at_20: Lash,
    /// Its standard uncertainty in millimetres, chosen the same way.
    pub at_20_uncertainty: f64,
    /// The line: x is kelvin above 20 C, y is millimetres.
    pub line: Line,
}

/// Fits how the lash of one valve follows temperature, from readings `(temperature, lash, standard
/// uncertainty of the lash in millimetres)`.
///
/// An error common to all readings (one worn leaf, one hand) shifts the line but not its slope;
/// state only what differs from reading to reading.
///
/// # Units
/// Uncertainties in millimetres.
///
/// # Errors
/// [`ThermalError::TooFewReadings`], [`ThermalError::OneTemperature`],
/// [`ThermalError::Uncertainty`], [`ThermalError::Quantity`] if the line leaves what a lash can be.
///
/// # Source
/// Weighted least squares; [`straight_line`]. Taking the larger uncertainty is this library's
/// choice.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::quantity::{Lash, Temperature};
/// use lashwork::thermal::fit_coefficient;
/// let reading = |celsius, mm| -> Result<_, lashwork::quantity::QuantityError> {
///     Ok((Temperature::from_celsius(celsius)?, Lash::from_mm(mm)?, 0.005))
/// };
/// let fit = fit_coefficient(&[reading(20.0, 0.20)?, reading(80.0, 0.26)?])?;
/// assert!((fit.coefficient.mm_per_kelvin - 0.001).abs() < 1e-12);
/// assert!((fit.at_20.mm() - 0.20).abs() < 1e-12);
/// assert_eq!(fit_coefficient(&[]).unwrap_err().code(), "thermal.too-few-readings");
/// # Ok::<(), lashwork::thermal::ThermalError>(())
/// ```
pub fn fit_coefficient(readings: &[(Temperature, Lash, f64)]) -> Result<Fit, ThermalError> {
    let x: Vec<f64> = readings
        .iter()
        .map(|(t, _, _)| t.celsius() - 20.0)
        .collect();
    let y: Vec<f64> = readings.iter().map(|(_, lash, _)| lash.mm()).collect();
    let u: Vec<f64> = readings.iter().map(|(_, _, u)| *u).collect();
    let line = straight_line(&x, &y, &u)?;
    let scattered = line.residual_sd.filter(|sd| *sd > 1.0);
    let widen = scattered.unwrap_or(1.0);
    Ok(Fit {
        coefficient: LashCoefficient::new(
            line.slope,
            line.slope_u * widen,
            scattered.map(|_| line.degrees_of_freedom as f64),
        )?,
        at_20: Lash::from_mm(line.intercept)?,
        at_20_uncertainty: line.intercept_u * widen,
        line,
    })
}
