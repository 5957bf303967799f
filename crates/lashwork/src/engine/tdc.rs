//! Top dead centre from two readings of a degree wheel with the piston at one height.
//!
//! # Conventions
//! The wheel counts up in the running direction. A dial gauge at one reading either side serves as
//! well as a stop.
//!
//! # Method
//! Without offset, top dead centre is in the middle of the arc the stop bars. With offset the middle
//! lies a little off, by an amount the arc's own length and the [`SliderCrank`] give in closed form.
//! Two independent readings of standard uncertainty `u` leave `u / sqrt(2)` for their mean.
//!
//! # Source
//! Geometry; uncertainty by the law of propagation (JCGM 100:2008, 5.1.2).

use super::SliderCrank;
use crate::Refusal;
use crate::quantity::CrankAngle;
use alloc::borrow::Cow;
use core::f64::consts::FRAC_1_SQRT_2;
use serde::Serialize;

/// Why two readings give no top dead centre.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum TdcError {
    /// Both readings are the same.
    #[error("both stop readings are {} deg, so the stop blocks no arc", .at.degrees())]
    StopsEqual {
        /// The reading.
        at: CrankAngle,
    },
    /// The barred arc is half a turn or more.
    #[error(
        "from {} deg forward to {} deg the wheel turns {:.2} deg, not less than half a turn",
        .rising.degrees(), .falling.degrees(), .span.degrees()
    )]
    StopsTooFarApart {
        /// The reading before top dead centre.
        rising: CrankAngle,
        /// The reading after it.
        falling: CrankAngle,
        /// The arc between.
        span: CrankAngle,
    },
    /// An uncertainty is negative.
    #[error("standard uncertainty of a wheel reading {} deg is negative", .got.degrees())]
    NegativeUncertainty {
        /// The refused uncertainty.
        got: CrankAngle,
    },
}

impl Refusal for TdcError {
    fn code(&self) -> &'static str {
        match self {
            Self::StopsEqual { .. } => "engine.stops-equal",
            Self::StopsTooFarApart { .. } => "engine.stops-too-far-apart",
            Self::NegativeUncertainty { .. } => "engine.negative-uncertainty",
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::StopsEqual { .. } => "turn to the stop from both sides and read the wheel twice",
            Self::StopsTooFarApart { .. } => {
                "swap the two readings, or set the stop to meet the piston higher up"
            }
            Self::NegativeUncertainty { .. } => "give zero or a positive number of degrees",
        })
    }
}

/// Where top dead centre is on the wheel, and how well that is known.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TdcEstimate {
    /// The wheel's reading at top dead centre, from 0 up to 360.
    pub wheel: CrankAngle,
    /// Its standard uncertainty.
    pub standard_uncertainty: CrankAngle,
}

/// Two readings of the wheel with the piston against one stop, or at one dial reading.
///
/// ```
/// use lashwork::engine::PistonStops;
/// use lashwork::quantity::CrankAngle;
/// let deg = CrankAngle::from_degrees;
/// // The stop is met at 330 turning forward and at 20 turning back.
/// let found = PistonStops::new(deg(330.0)?, deg(20.0)?, deg(0.5)?)?.tdc();
/// assert_eq!(found.wheel.degrees(), 355.0);
/// assert!(found.standard_uncertainty.degrees() < 0.36);
/// assert!(PistonStops::new(deg(20.0)?, deg(330.0)?, deg(0.5)?).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PistonStops {
    rising: CrankAngle,
    span: CrankAngle,
    reading_uncertainty: CrankAngle,
}

impl PistonStops {
    /// Takes the wheel's reading where the piston meets the stop on its way up (turning forward),
    /// the reading where it meets it from the other side, and the standard uncertainty of either.
    ///
    /// # Errors
    /// [`TdcError::StopsEqual`]; [`TdcError::StopsTooFarApart`] if the arc from the first reading
    /// forward to the second is half a turn or more, as when they are exchanged;
    /// [`TdcError::NegativeUncertainty`].
    pub fn new(
        rising: CrankAngle,
        falling: CrankAngle,
        reading_uncertainty: CrankAngle,
    ) -> Result<Self, TdcError> {
        if reading_uncertainty.degrees() < 0.0 {
            return Err(TdcError::NegativeUncertainty {
                got: reading_uncertainty,
            });
        }
        let span = within_turn(falling.degrees() - rising.degrees());
        if span <= 0.0 {
            return Err(TdcError::StopsEqual { at: rising });
        }
        if span >= 180.0 {
            return Err(TdcError::StopsTooFarApart {
                rising,
                falling,
                span: CrankAngle::computed(span),
            });
        }
        Ok(Self {
            rising,
            span: CrankAngle::computed(span),
            reading_uncertainty,
        })
    }

    /// Top dead centre in the middle of the barred arc: exact without offset.
    #[must_use]
    pub fn tdc(&self) -> TdcEstimate {
        self.shifted_by(0.0)
    }

    /// Top dead centre with the offset of pin or bore taken into account.
    ///
    /// The crank's dimensions count as exact: their part in the uncertainty is far below that of
    /// a wheel's reading.
    #[must_use]
    pub fn tdc_with(&self, slider: &SliderCrank) -> TdcEstimate {
        let half_span = CrankAngle::computed(self.span.degrees() / 2.0);
        self.shifted_by(-slider.middle_after_tdc(half_span).degrees())
    }

    fn shifted_by(&self, degrees: f64) -> TdcEstimate {
        let middle = self.rising.degrees() + self.span.degrees() / 2.0 + degrees;
        TdcEstimate {
            wheel: CrankAngle::computed(within_turn(middle)),
            standard_uncertainty: CrankAngle::computed(
                self.reading_uncertainty.degrees() * FRAC_1_SQRT_2,
            ),
        }
    }
}

fn within_turn(degrees: f64) -> f64 {
    let rest = degrees - 360.0 * libm::floor(degrees / 360.0);
    if rest >= 360.0 { 0.0 } else { rest }
}
