//! Why cranking compression cannot be judged.

use crate::Refusal;
use crate::engine::{CompressionRatioError, CylinderLabel};
use crate::mixture::air::AirError;
use crate::quantity::{GaugePressure, QuantityError};
use crate::tolerance::ToleranceError;
use alloc::borrow::Cow;

/// Why cranking compression cannot be judged.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::condition::compression::CompressionRule;
/// let refused = CompressionRule::ratio(7.5).unwrap_err();
/// assert_eq!(refused.code(), "condition.compression-ratio-rule");
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum CompressionError {
    /// No reading.
    #[error("there is no compression reading")]
    NoReading,
    /// Two readings of one cylinder.
    #[error("cylinder {cylinder} has two compression readings")]
    ReadTwice {
        /// The cylinder.
        cylinder: CylinderLabel,
    },
    /// A pressure that cranking does not give.
    #[error("cylinder {cylinder}: {shown} of cranking compression is outside {min} to {max} kPa")]
    Shown {
        /// The cylinder.
        cylinder: CylinderLabel,
        /// What was read.
        shown: GaugePressure,
        /// Least accepted, in kilopascals.
        min: f64,
        /// Greatest accepted.
        max: f64,
    },
    /// Oil that lowers a cylinder.
    #[error("cylinder {cylinder}: wet {wet} is under dry {dry} by more than the gauge's scatter")]
    WetUnderDry {
        /// The cylinder.
        cylinder: CylinderLabel,
        /// Without oil.
        dry: GaugePressure,
        /// With oil.
        wet: GaugePressure,
    },
    /// A scatter of nothing, with which nothing can be weighed.
    #[error(
        "a standard uncertainty of {got} kPa between two readings of a cylinder is not above 0"
    )]
    Repeat {
        /// The refused number.
        got: f64,
    },
    /// Air that no engine runs in.
    #[error("{got} kPa of air is outside {min} to {max} kPa")]
    Air {
        /// The refused number.
        got: f64,
        /// Least.
        min: f64,
        /// Greatest.
        max: f64,
    },
    /// A factor that no altitude has.
    #[error("a factor of {got} for altitude is not above 0 and up to 1.2")]
    Factor {
        /// The refused number.
        got: f64,
    },
    /// An exponent that no compression has.
    #[error("an exponent of {got} is outside {min} (isothermal) to {max} (adiabatic)")]
    Exponent {
        /// The refused number.
        got: f64,
        /// Least.
        min: f64,
        /// Greatest.
        max: f64,
    },
    /// A value with one end where both are needed.
    #[error("{what} is known on one side only")]
    OneSided {
        /// What.
        what: &'static str,
    },
    /// A rule of parts that is none.
    #[error("a rule of {got} % of the highest is outside 50 to 100 %")]
    RatioRule {
        /// The refused percentage.
        got: f64,
    },
    /// A rule of differences that is none.
    #[error("a rule of {got} kPa from lowest to highest is not above 0 and up to 1000 kPa")]
    DifferenceRule {
        /// The refused difference.
        got: f64,
    },
    /// A least pressure that is none.
    #[error("a least compression of {got} kPa is outside {min} to {max} kPa")]
    MinimumRule {
        /// The refused pressure.
        got: f64,
        /// Least.
        min: f64,
        /// Greatest.
        max: f64,
    },
    /// A rule between cylinders with one cylinder read.
    #[error("a rule between cylinders needs two readings")]
    OneReading,
    /// A cylinder that stands twice in the rows of the head.
    #[error("cylinder {cylinder} stands twice in the rows of the head")]
    TwiceInRows {
        /// The cylinder.
        cylinder: CylinderLabel,
    },
    /// More oil than the cylinder has room for.
    #[error("{oil} ml of oil fills the {room:.1} ml that the piston leaves")]
    OilFills {
        /// The oil.
        oil: f64,
        /// Volume over the piston at the top.
        room: f64,
    },
    /// A compression ratio or a closing that cannot be.
    #[error(transparent)]
    Ratio(#[from] CompressionRatioError),
    /// Air that cannot be.
    #[error(transparent)]
    AirOf(#[from] AirError),
    /// A number that a quantity cannot be.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
    /// An uncertainty or an estimate that cannot be.
    #[error(transparent)]
    Tolerance(#[from] ToleranceError),
}

impl Refusal for CompressionError {
    fn code(&self) -> &'static str {
        match self {
            Self::NoReading => "condition.compression-no-reading",
            Self::ReadTwice { .. } => "condition.compression-read-twice",
            Self::Shown { .. } => "condition.compression-shown",
            Self::WetUnderDry { .. } => "condition.compression-wet-under-dry",
            Self::Repeat { .. } => "condition.compression-repeat",
            Self::Air { .. } => "condition.compression-air",
            Self::Factor { .. } => "condition.compression-altitude-factor",
            Self::Exponent { .. } => "condition.compression-exponent",
            Self::OneSided { .. } => "condition.compression-one-sided",
            Self::RatioRule { .. } => "condition.compression-ratio-rule",
            Self::DifferenceRule { .. } => "condition.compression-difference-rule",
            Self::MinimumRule { .. } => "condition.compression-minimum-rule",
            Self::OneReading => "condition.compression-one-reading",
            Self::TwiceInRows { .. } => "condition.compression-twice-in-rows",
            Self::OilFills { .. } => "condition.compression-oil-fills",
            Self::Ratio(inner) => inner.code(),
            Self::AirOf(inner) => inner.code(),
            Self::Quantity(inner) => inner.code(),
            Self::Tolerance(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::NoReading => "crank each cylinder with the gauge and give what it shows",
            Self::ReadTwice { .. } => "give one reading for each cylinder, the last good one",
            Self::Shown { .. } => {
                "check the unit; cranking gives at most 400 psi (27.6 bar) with spark ignition"
            }
            Self::WetUnderDry { .. } => {
                "read again: the battery may be down, or the two figures are swapped"
            }
            Self::Repeat { .. } => {
                "give by how much two readings of one cylinder differ, such as 15 kPa"
            }
            Self::Air { .. } => "give the pressure of the place, above nothing, and check its unit",
            Self::Factor { .. } => "give the factor as printed, such as 0.83",
            Self::Exponent { .. } => {
                "give an exponent such as 1.22, or leave it to the good cylinders"
            }
            Self::OneSided { .. } => "give a value with its uncertainty",
            Self::RatioRule { .. } => "give the part in percent, such as 75 %",
            Self::DifferenceRule { .. } => {
                "give the greatest difference from the lowest to the highest cylinder"
            }
            Self::MinimumRule { .. } => "give the least pressure as printed, with its unit",
            Self::OneReading => "read the other cylinders, or judge this one by a least pressure",
            Self::TwiceInRows { .. } => "name each cylinder once",
            Self::OilFills { .. } => {
                "check both volumes; a tablespoon is 15 ml, too much for a small cylinder"
            }
            Self::Ratio(inner) => return inner.hint(),
            Self::AirOf(inner) => return inner.hint(),
            Self::Quantity(inner) => return inner.hint(),
            Self::Tolerance(inner) => return inner.hint(),
        })
    }
}
