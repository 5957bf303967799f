//! The pressure in the cylinder when the spark comes.

use super::{ElectricsAssumption, ElectricsError};
use crate::engine::SliderCrank;
use crate::quantity::{AbsolutePressure, Advance, CrankAngle, Length, Temperature};
use crate::tolerance::Estimate;
use crate::tolerance::known::{known, normal, together};
use alloc::vec::Vec;
use serde::Serialize;

/// Compression ratios that are accepted.
const RATIOS: (f64, f64) = (2.0, 25.0);

/// Compression of the charge along a polytrope.
///
/// ```
/// use lashwork::ignition::electrics::Compression;
/// use lashwork::quantity::{AbsolutePressure, Advance};
/// use lashwork::tolerance::{Estimate, Uncertainty};
/// let air = AbsolutePressure::parse("14.7 psi")?;
/// let air = Estimate::between(air, air, Uncertainty::from_number(1.0)?)?;
/// let full = Compression::new(7.5, 1.3, 0.03, air)?;
/// let (at_top, _) = full.pressure_at(Advance::TDC)?;
/// // 201.8 psi, as an encyclopaedia's page on compression prints.
/// assert!((at_top.centre().unwrap().kilopascals() / 6.894_757 - 201.8).abs() < 0.05);
/// let (at_spark, _) = full.pressure_at(Advance::parse("30 deg BTDC")?)?;
/// assert!(at_spark.centre() < at_top.centre());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Compression {
    ratio: f64,
    exponent: f64,
    exponent_u: f64,
    start: Estimate<AbsolutePressure>,
    intake_closes: Option<f64>,
    crank: Option<SliderCrank>,
}

impl Compression {
    /// Takes the compression ratio, the exponent with its standard uncertainty, and the pressure in the
    /// cylinder when compression begins.
    ///
    /// # Errors
    /// [`ElectricsError::CompressionRatio`] outside 2 to 25; [`ElectricsError::Exponent`] outside 1
    /// (isothermal) to 1.67, or an uncertainty that is negative or over 0.5.
    pub fn new(
        ratio: f64,
        exponent: f64,
        exponent_u: f64,
        start: Estimate<AbsolutePressure>,
    ) -> Result<Self, ElectricsError> {
        let (min, max) = RATIOS;
        if !(min..=max).contains(&ratio) {
            return Err(ElectricsError::CompressionRatio {
                got: ratio,
                min,
                max,
            });
        }
        if !(1.0..=1.67).contains(&exponent) {
            return Err(ElectricsError::Exponent { got: exponent });
        }
        if !(0.0..=0.5).contains(&exponent_u) {
            return Err(ElectricsError::Exponent { got: exponent_u });
        }
        Ok(Self {
            ratio,
            exponent,
            exponent_u,
            start,
            intake_closes: None,
            crank: None,
        })
    }

    /// With the crank and rod of the engine.
    #[must_use]
    pub const fn with_crank(self, crank: SliderCrank) -> Self {
        Self {
            crank: Some(crank),
            ..self
        }
    }

    /// With the compression beginning where the intake closes, so many crank degrees after bottom dead
    /// centre.
    ///
    /// # Errors
    /// [`ElectricsError::IntakeClosing`] if not from 0 to 120 degrees.
    ///
    /// ```
    /// use lashwork::ignition::electrics::Compression;
    /// use lashwork::quantity::{AbsolutePressure, Advance, CrankAngle};
    /// use lashwork::tolerance::{Estimate, Uncertainty};
    /// let air = AbsolutePressure::parse("1 bar")?;
    /// let whole = Compression::new(8.0, 1.3, 0.0, Estimate::between(air, air, Uncertainty::ZERO)?)?;
    /// let late = whole.with_intake_closing(CrankAngle::from_degrees(50.0)?)?;
    /// let at_top = |c: Compression| c.pressure_at(Advance::TDC).unwrap().0.centre();
    /// assert!(at_top(late) < at_top(whole));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn with_intake_closing(self, after_bottom: CrankAngle) -> Result<Self, ElectricsError> {
        let got = after_bottom.degrees();
        if !(0.0..=120.0).contains(&got) {
            return Err(ElectricsError::IntakeClosing { got });
        }
        Ok(Self {
            intake_closes: Some(got),
            ..self
        })
    }

    /// The pressure where the spark comes, and what is taken for granted.
    ///
    /// # Errors
    /// [`ElectricsError::SparkPlace`], [`ElectricsError::IntakeClosing`] if the spark comes before the
    /// intake closes, [`ElectricsError::OneSided`].
    ///
    /// # Source
    /// `p = p0 (V0 / V)^n`; the volume from the piston's drop.
    pub fn pressure_at(
        &self,
        spark: Advance,
    ) -> Result<(Estimate<AbsolutePressure>, Vec<ElectricsAssumption>), ElectricsError> {
        let what = "the pressure at the start";
        let (start, start_u) = known(&self.start).ok_or(ElectricsError::OneSided { what })?;
        let smaller = self.smaller(spark)?;
        let pressure = start * libm::pow(smaller, self.exponent);
        let u = together([
            pressure * start_u / start,
            pressure * libm::log(smaller) * self.exponent_u,
        ]);
        let mut assumptions = Vec::new();
        if self.intake_closes.is_none() {
            assumptions.push(ElectricsAssumption::CompressionFromBottom);
        }
        if self.crank.is_none() {
            let ratio = SliderCrank::ASSUMED_ROD_RATIO;
            assumptions.push(ElectricsAssumption::RodRatio { ratio });
        }
        Ok((normal(pressure, u)?, assumptions))
    }

    /// How hot the charge is there, from its temperature when compression begins.
    ///
    /// # Errors
    /// As [`Self::pressure_at`].
    ///
    /// # Source
    /// `T = T0 (V0 / V)^(n - 1)`.
    ///
    /// ```
    /// use lashwork::ignition::electrics::Compression;
    /// use lashwork::quantity::{AbsolutePressure, Advance, Temperature};
    /// use lashwork::tolerance::{Estimate, Uncertainty};
    /// let air = AbsolutePressure::parse("1 bar")?;
    /// let whole = Compression::new(8.0, 1.3, 0.0, Estimate::between(air, air, Uncertainty::ZERO)?)?;
    /// let hot = whole.temperature_at(Advance::TDC, Temperature::from_celsius(50.0)?)?;
    /// assert!((hot.kelvin() - 323.15 * 8.0_f64.powf(0.3)).abs() < 1e-9);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn temperature_at(
        &self,
        spark: Advance,
        start: Temperature,
    ) -> Result<Temperature, ElectricsError> {
        let hotter = libm::pow(self.smaller(spark)?, self.exponent - 1.0);
        let celsius = start.kelvin() * hotter - start.kelvin() + start.celsius();
        Ok(Temperature::from_celsius(celsius)?)
    }

    /// How many times smaller the volume is at the spark than at the start.
    fn smaller(&self, spark: Advance) -> Result<f64, ElectricsError> {
        let got = spark.degrees_before();
        if !(-90.0..=120.0).contains(&got) {
            return Err(ElectricsError::SparkPlace { got });
        }
        let crank = self.crank.unwrap_or_else(SliderCrank::assumed);
        let volume = |drop: Length| 1.0 + (self.ratio - 1.0) * drop.mm() / crank.stroke().mm();
        let top = crank.tdc_angle();
        let closed = match self.intake_closes {
            Some(after) => crank.piston_drop(
                crank.bdc_angle() - CrankAngle::TURN + CrankAngle::from_degrees(after)?,
            ),
            None => crank.stroke(),
        };
        let smaller = volume(closed) / volume(crank.piston_drop(top + spark.from_tdc()));
        if smaller < 1.0 {
            let got = self.intake_closes.unwrap_or(0.0);
            return Err(ElectricsError::IntakeClosing { got });
        }
        Ok(smaller)
    }
}
