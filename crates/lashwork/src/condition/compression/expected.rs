//! What the gauge should show, from ratio, closing of the intake, air and exponent.

use super::altitude::checked;
use super::{CompressionAssumption, CompressionError};
use crate::engine::{CompressionRatio, SliderCrank};
use crate::quantity::{AbsolutePressure, CrankAngle, GaugePressure};
use crate::statistics::RectangularNormal;
use crate::tolerance::known::{known, normal, together};
use crate::tolerance::{DecisionRule, Estimate, Judgement, Uncertainty, judge_known};
use alloc::vec::Vec;
use serde::Serialize;

/// Isothermal and adiabatic: no compression lies outside, with a little room for reading.
pub(super) const EXPONENTS: (f64, f64) = (1.0, 1.41);
/// Standard atmosphere at sea level, and what weather leaves open of it, in kilopascals.
const SEA_LEVEL: (f64, f64) = (101.325, 1.0);
/// Middle of the usual closings of the intake and half their range, in degrees after bottom dead centre. This
/// library's choice.
const CLOSES: (f64, f64) = (50.0, 20.0);
/// Step for slopes in the closing, in degrees.
const STEP: f64 = 0.5;

/// The exponent of compression: between two ends.
///
/// ```
/// use lashwork::condition::compression::Exponent;
/// assert_eq!(Exponent::usual().low(), 1.15);
/// assert!(Exponent::between(1.2, 1.6).is_err());
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Exponent {
    low: f64,
    high: f64,
}

impl Exponent {
    /// From one end to the other; both the same if it is known.
    ///
    /// # Errors
    /// [`CompressionError::Exponent`] outside 1 (isothermal) to 1.41 (adiabatic), or crossed.
    pub fn between(low: f64, high: f64) -> Result<Self, CompressionError> {
        let (min, max) = EXPONENTS;
        for got in [low, high] {
            if !(min..=max).contains(&got) || low > high {
                return Err(CompressionError::Exponent { got, min, max });
            }
        }
        Ok(Self { low, high })
    }

    /// 1.15 to 1.30, what printed pressures imply with printed ratios.
    #[must_use]
    pub const fn usual() -> Self {
        Self {
            low: 1.15,
            high: 1.30,
        }
    }

    /// The lower end.
    #[must_use]
    pub const fn low(self) -> f64 {
        self.low
    }

    /// The upper end.
    #[must_use]
    pub const fn high(self) -> f64 {
        self.high
    }
}

/// An engine that is cranked, and where.
///
/// ```
/// use lashwork::condition::compression::{Cranking, Exponent};
/// use lashwork::engine::{CompressionRatio, PinOffset, SliderCrank};
/// use lashwork::quantity::{AbsolutePressure, CrankAngle, Length};
/// use lashwork::tolerance::{Estimate, Uncertainty};
/// let (closes, air) = (CrankAngle::from_degrees(60.0)?, AbsolutePressure::parse("14.696 psi")?);
/// let engine = Cranking {
///     ratio: CompressionRatio::new(9.0)?,
///     ratio_u: 0.0,
///     crank: Some(SliderCrank::new(Length::from_mm(45.0)?, Length::from_mm(150.0)?, PinOffset::ZERO)?),
///     intake_closes_abdc: Some(Estimate::between(closes, closes, Uncertainty::ZERO)?),
///     air: Some(Estimate::between(air, air, Uncertainty::ZERO)?),
/// };
/// let shown = engine.expected(Exponent::between(1.2, 1.3)?)?;
/// assert!((shown.low().unwrap().kilopascals() / 6.894_757 - 149.1).abs() < 0.05);
/// assert!((shown.high().unwrap().kilopascals() / 6.894_757 - 185.6).abs() < 0.05);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cranking {
    /// The printed ratio.
    pub ratio: CompressionRatio,
    /// Its standard uncertainty: skimmed heads, carbon.
    pub ratio_u: f64,
    /// Crank and rod; the usual proportions if not stated.
    pub crank: Option<SliderCrank>,
    /// Where the intake closes at the running lash, after bottom dead centre; 30 to 70 degrees if not stated. Of a
    /// two-stroke, where the exhaust port closes.
    pub intake_closes_abdc: Option<Estimate<CrankAngle>>,
    /// Pressure of the place; that of sea level if not stated.
    pub air: Option<Estimate<AbsolutePressure>>,
}

/// The engine as a whole against what its dimensions give.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Level {
    /// What its dimensions give.
    pub expected: Estimate<GaugePressure>,
    /// The exponent that its good cylinders imply.
    pub exponent: f64,
    /// Its standard uncertainty: gauge, ratio, closing and air.
    pub exponent_u: f64,
    /// Whether that exponent is in the usual range: below it all cylinders are low, above it all are high.
    pub judgement: Judgement,
}

/// Effective ratio and its slopes by the printed ratio and by the closing.
struct Sloped {
    ratio: f64,
    by_ratio: f64,
    by_closing: f64,
    closing_u: f64,
}

impl Cranking {
    /// What the gauge should show.
    ///
    /// # Errors
    /// [`CompressionError::Air`], [`CompressionError::OneSided`], [`CompressionError::Ratio`].
    ///
    /// # Source
    /// `p_air (r^n - 1)`, polytropic compression of a perfect gas.
    pub fn expected(
        &self,
        exponent: Exponent,
    ) -> Result<Estimate<GaugePressure>, CompressionError> {
        let (air, air_u) = self.air()?;
        let sloped = self.sloped()?;
        let at = |n: f64| air * (libm::pow(sloped.ratio, n) - 1.0);
        let middle = 0.5 * (exponent.low + exponent.high);
        let by_ratio = air * middle * libm::pow(sloped.ratio, middle - 1.0);
        let u = together([
            (libm::pow(sloped.ratio, middle) - 1.0) * air_u,
            by_ratio * sloped.by_ratio * self.ratio_u,
            by_ratio * sloped.by_closing * sloped.closing_u,
        ]);
        Ok(Estimate::between(
            GaugePressure::from_kilopascals(at(exponent.low))?,
            GaugePressure::from_kilopascals(at(exponent.high))?,
            Uncertainty::from_number(u)?,
        )?)
    }

    /// How many times the charge is compressed from where the intake closes.
    ///
    /// # Errors
    /// As [`Self::expected`].
    ///
    /// ```
    /// # use lashwork::condition::compression::Cranking;
    /// # use lashwork::engine::CompressionRatio;
    /// let engine = Cranking {
    ///     ratio: CompressionRatio::new(9.0)?, ratio_u: 0.0, crank: None, intake_closes_abdc: None, air: None,
    /// };
    /// let effective = engine.effective_ratio()?;
    /// assert!(effective > 7.5 && effective < 8.5);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn effective_ratio(&self) -> Result<f64, CompressionError> {
        Ok(self.sloped()?.ratio)
    }

    /// The exponent that a reading implies, with the standard uncertainty that the reading's own, the ratio's,
    /// the closing's and the air's leave.
    ///
    /// # Errors
    /// As [`Self::expected`].
    ///
    /// # Source
    /// `n = ln(p / p_air) / ln r`.
    ///
    /// ```
    /// # use lashwork::condition::compression::{Cranking, Exponent};
    /// # use lashwork::engine::CompressionRatio;
    /// # use lashwork::tolerance::Estimate;
    /// let engine = Cranking {
    ///     ratio: CompressionRatio::new(9.0)?, ratio_u: 0.0, crank: None, intake_closes_abdc: None, air: None,
    /// };
    /// let shown = engine.expected(Exponent::between(1.25, 1.25)?)?;
    /// let (n, _) = engine.implied(&shown)?;
    /// assert!((n - 1.25).abs() < 1e-12);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn implied(&self, shown: &Estimate<GaugePressure>) -> Result<(f64, f64), CompressionError> {
        let what = "the compression";
        let (shown, shown_u) = known(shown).ok_or(CompressionError::OneSided { what })?;
        let (air, air_u) = self.air()?;
        let sloped = self.sloped()?;
        let (ln_ratio, inside) = (libm::log(sloped.ratio), air + shown);
        let n = libm::log(inside / air) / ln_ratio;
        let by_ratio = n / (sloped.ratio * ln_ratio);
        let u = together([
            shown_u / (inside * ln_ratio),
            (1.0 / inside - 1.0 / air) / ln_ratio * air_u,
            by_ratio * sloped.by_ratio * self.ratio_u,
            by_ratio * sloped.by_closing * sloped.closing_u,
        ]);
        Ok((n, u))
    }

    /// The good cylinders against what the dimensions give.
    pub(super) fn level(
        &self,
        shown: &Estimate<GaugePressure>,
        usual: Exponent,
    ) -> Result<Level, CompressionError> {
        let (exponent, exponent_u) = self.implied(shown)?;
        let shape = RectangularNormal {
            a: exponent,
            b: exponent,
            u: exponent_u,
        };
        let (below, within, above) = shape.split(Some(usual.low), Some(usual.high));
        let judgement = judge_known((below, within, above), &DecisionRule::simple());
        Ok(Level {
            expected: self.expected(usual)?,
            exponent,
            exponent_u,
            judgement,
        })
    }

    /// Pressure of the air and its standard uncertainty, in kilopascals.
    pub(super) fn air(&self) -> Result<(f64, f64), CompressionError> {
        let what = "the pressure of the air";
        let air = match self.air {
            Some(air) => air,
            None => normal(SEA_LEVEL.0, SEA_LEVEL.1)?,
        };
        let (kpa, u) = known(&air).ok_or(CompressionError::OneSided { what })?;
        checked(AbsolutePressure::from_kilopascals(kpa)?)?;
        Ok((kpa, u))
    }

    fn sloped(&self) -> Result<Sloped, CompressionError> {
        let crank = self.crank.unwrap_or_else(SliderCrank::assumed);
        let what = "the closing of the intake";
        let (closes, closing_u) = match &self.intake_closes_abdc {
            Some(stated) => known(stated).ok_or(CompressionError::OneSided { what })?,
            None => (CLOSES.0, CLOSES.1 / libm::sqrt(3.0)),
        };
        let at = |degrees: f64| -> Result<f64, CompressionError> {
            Ok(self
                .ratio
                .effective(&crank, CrankAngle::from_degrees(degrees)?)?)
        };
        let ratio = at(closes)?;
        Ok(Sloped {
            ratio,
            by_ratio: (ratio - 1.0) / (self.ratio.get() - 1.0),
            by_closing: (at(closes + STEP)? - at(closes - STEP)?) / (2.0 * STEP),
            closing_u,
        })
    }

    pub(super) fn assumptions(&self) -> Vec<CompressionAssumption> {
        let all = [
            (self.air.is_none(), CompressionAssumption::AirAssumed),
            (self.crank.is_none(), CompressionAssumption::RodRatio),
            (
                self.intake_closes_abdc.is_none(),
                CompressionAssumption::ClosingAssumed,
            ),
        ];
        let taken = all.into_iter().filter(|(taken, _)| *taken);
        taken.map(|(_, assumption)| assumption).collect()
    }
}
