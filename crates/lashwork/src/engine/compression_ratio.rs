//! The compression ratio, as printed and as the closing of the intake leaves it.

use super::SliderCrank;
use crate::Refusal;
use crate::quantity::{CrankAngle, QuantityError, Volume};
use alloc::borrow::Cow;
use serde::Serialize;

/// Why a compression ratio cannot be.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum CompressionRatioError {
    /// A ratio of no engine.
    #[error("a compression ratio of {got} is outside {min} to {max}")]
    Ratio {
        /// The refused number.
        got: f64,
        /// Least.
        min: f64,
        /// Greatest.
        max: f64,
    },
    /// An intake that closes where none does.
    #[error("an intake that closes {got} deg after BDC is outside {min} to {max} deg")]
    IntakeCloses {
        /// The refused angle in degrees.
        got: f64,
        /// Least.
        min: f64,
        /// Greatest.
        max: f64,
    },
    /// An angle that cannot be.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
}

impl Refusal for CompressionRatioError {
    fn code(&self) -> &'static str {
        match self {
            Self::Ratio { .. } => "engine.compression-ratio",
            Self::IntakeCloses { .. } => "engine.intake-closes",
            Self::Quantity(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::Ratio { .. } => {
                "give the printed ratio, such as 8.5 for 8.5 to 1; it is neither a pressure nor a percentage"
            }
            Self::IntakeCloses { .. } => {
                "give the crank degrees after bottom dead centre at which the intake closes"
            }
            Self::Quantity(inner) => return inner.hint(),
        })
    }
}

/// Volume over the piston at bottom dead centre over that at top dead centre, 3 to 25.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::engine::CompressionRatio;
/// assert_eq!(CompressionRatio::new(8.5)?.get(), 8.5);
/// // A ratio printed in percent, or a pressure.
/// assert_eq!(CompressionRatio::new(150.0).unwrap_err().code(), "engine.compression-ratio");
/// # Ok::<(), lashwork::engine::CompressionRatioError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize)]
#[serde(transparent)]
pub struct CompressionRatio(f64);

impl CompressionRatio {
    /// Least that is accepted.
    pub const MIN: f64 = 3.0;
    /// Greatest that is accepted.
    pub const MAX: f64 = 25.0;
    /// Least and greatest closing of the intake after bottom dead centre, in degrees.
    const CLOSES: (f64, f64) = (-60.0, 120.0);

    /// Takes a printed ratio.
    ///
    /// # Errors
    /// [`CompressionRatioError::Ratio`].
    pub fn new(got: f64) -> Result<Self, CompressionRatioError> {
        let (min, max) = (Self::MIN, Self::MAX);
        if (min..=max).contains(&got) {
            Ok(Self(got))
        } else {
            Err(CompressionRatioError::Ratio { got, min, max })
        }
    }

    /// From the volume the piston sweeps and the one it leaves.
    ///
    /// # Errors
    /// [`CompressionRatioError::Ratio`].
    ///
    /// ```
    /// use lashwork::engine::CompressionRatio;
    /// use lashwork::quantity::Volume;
    /// let ratio = CompressionRatio::of_volumes(Volume::parse("350 ml")?, Volume::parse("50 ml")?)?;
    /// assert_eq!(ratio.get(), 8.0);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn of_volumes(swept: Volume, clearance: Volume) -> Result<Self, CompressionRatioError> {
        Self::new((swept.millilitres() + clearance.millilitres()) / clearance.millilitres())
    }

    /// The ratio as printed.
    #[must_use]
    pub const fn get(self) -> f64 {
        self.0
    }

    /// How many times smaller the volume becomes from where the intake closes, so many crank degrees after
    /// bottom dead centre.
    ///
    /// # Errors
    /// [`CompressionRatioError::IntakeCloses`] outside -60 to 120 degrees.
    ///
    /// # Source
    /// Geometry of crank and rod.
    ///
    /// ```
    /// use lashwork::engine::{CompressionRatio, PinOffset, SliderCrank};
    /// use lashwork::quantity::{CrankAngle, Length};
    /// let crank = SliderCrank::new(Length::from_mm(45.0)?, Length::from_mm(150.0)?, PinOffset::ZERO)?;
    /// let closes = CrankAngle::from_degrees(60.0)?;
    /// let effective = CompressionRatio::new(8.0)?.effective(&crank, closes)?;
    /// assert!((effective - 6.6506).abs() < 5e-5);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn effective(
        self,
        crank: &SliderCrank,
        intake_closes_abdc: CrankAngle,
    ) -> Result<f64, CompressionRatioError> {
        let got = intake_closes_abdc.degrees();
        let (min, max) = Self::CLOSES;
        if !(min..=max).contains(&got) {
            return Err(CompressionRatioError::IntakeCloses { got, min, max });
        }
        let at = CrankAngle::from_degrees(crank.bdc_angle().degrees() + got)?;
        let left = crank.piston_drop(at).mm() / crank.stroke().mm();
        Ok(1.0 + (self.0 - 1.0) * left)
    }
}
