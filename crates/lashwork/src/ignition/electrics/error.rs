//! Why something about coil, condenser or plug was refused.

use crate::Refusal;
use crate::ignition::breaker::BreakerError;
use crate::quantity::{QuantityError, Voltage};
use crate::tolerance::ToleranceError;
use alloc::borrow::Cow;

/// Why something about coil, condenser or plug was refused.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::ignition::electrics::Paschen;
/// // Constants printed without their power of ten.
/// let refused = Paschen::new(15.0, 0.000_57, 0.01).unwrap_err();
/// assert_eq!(refused.code(), "ignition.paschen-constants");
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ElectricsError {
    /// A reading with one end where a value is needed.
    #[error("{what} is known on one side only")]
    OneSided {
        /// What.
        what: &'static str,
    },
    /// Too cold for the law of the conductor.
    #[error("{celsius} C is outside {min} to {max} C, where the resistance of copper is known")]
    ConductorTemperature {
        /// The refused temperature.
        celsius: f64,
        /// Lowest.
        min: f64,
        /// Highest.
        max: f64,
    },
    /// A coil without voltage has no current.
    #[error("a supply of 0 V drives no current")]
    NoSupply,
    /// A share that is nothing, or all, which takes for ever.
    #[error("a share of {got} is not above 0 and below 1")]
    Share {
        /// The refused number.
        got: f64,
    },
    /// The coil never has so much, at any speed.
    #[error(
        "the coil never reaches {wanted} {unit}; standing with closed contacts it has {full:.4} {unit}"
    )]
    NeverReached {
        /// What is wanted.
        wanted: f64,
        /// What there is in the end.
        full: f64,
        /// Unit of both.
        unit: &'static str,
    },
    /// Constants that let a gas break down at a voltage where none does, or withstand one that breaks any.
    #[error(
        "Paschen constants {a} and {b} for each cm and Torr and {gamma} make a least breakdown voltage of {least:.3} V"
    )]
    PaschenConstants {
        /// Ionisation, for each cm and Torr.
        a: f64,
        /// Volts for each cm and Torr.
        b: f64,
        /// Electrons released for each ion.
        gamma: f64,
        /// What follows from them.
        least: f64,
    },
    /// The gap is so small or the gas so thin that the law does not hold.
    #[error(
        "a gap times pressure of {got:.4} cm Torr is below {least:.4} cm Torr, where the law of Paschen has its minimum"
    )]
    UnderPaschenMinimum {
        /// The refused product.
        got: f64,
        /// Where the minimum is.
        least: f64,
    },
    /// A voltage that breaks no gap.
    #[error("{} V is under the least voltage that breaks down any gap in air, {:.0} V", .voltage.volts(), .least.volts())]
    VoltageTooLow {
        /// The voltage.
        voltage: Voltage,
        /// The least.
        least: Voltage,
    },
    /// A compression ratio that no engine has.
    #[error("a compression ratio of {got} is not from {min} to {max}")]
    CompressionRatio {
        /// The refused number.
        got: f64,
        /// Least.
        min: f64,
        /// Greatest.
        max: f64,
    },
    /// An exponent that no compression has.
    #[error("an exponent of {got} is not from 1 to 1.67")]
    Exponent {
        /// The refused number.
        got: f64,
    },
    /// The intake closes after the spark, or not in the compression stroke.
    #[error(
        "an intake closing {got} deg after bottom dead centre is not before the spark in the compression stroke"
    )]
    IntakeClosing {
        /// The refused number.
        got: f64,
    },
    /// The spark is not in the compression or the beginning of the power stroke.
    #[error("a spark {got} deg before top dead centre is not from -90 to 120 deg")]
    SparkPlace {
        /// The refused number.
        got: f64,
    },
    /// No place to aim without both ends of the band.
    #[error("the band for the plug gap has one end only")]
    BandWithOneEnd,
    /// Something about the breaker.
    #[error(transparent)]
    Breaker(#[from] BreakerError),
    /// A number that a quantity cannot be.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
    /// An uncertainty or an estimate that cannot be.
    #[error(transparent)]
    Tolerance(#[from] ToleranceError),
}

impl Refusal for ElectricsError {
    fn code(&self) -> &'static str {
        match self {
            Self::OneSided { .. } => "ignition.one-sided",
            Self::ConductorTemperature { .. } => "ignition.conductor-temperature",
            Self::NoSupply => "ignition.no-supply",
            Self::Share { .. } => "ignition.share",
            Self::NeverReached { .. } => "ignition.never-reached",
            Self::PaschenConstants { .. } => "ignition.paschen-constants",
            Self::UnderPaschenMinimum { .. } => "ignition.under-paschen-minimum",
            Self::VoltageTooLow { .. } => "ignition.voltage-too-low",
            Self::CompressionRatio { .. } => "ignition.compression-ratio",
            Self::Exponent { .. } => "ignition.exponent",
            Self::IntakeClosing { .. } => "ignition.intake-closing",
            Self::SparkPlace { .. } => "ignition.spark-place",
            Self::BandWithOneEnd => "ignition.band-with-one-end",
            Self::Breaker(inner) => inner.code(),
            Self::Quantity(inner) => inner.code(),
            Self::Tolerance(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::OneSided { .. } => "give a value with its uncertainty",
            Self::ConductorTemperature { .. } => "give the temperature of the winding",
            Self::NoSupply => "give the voltage at the coil with the contacts closed",
            Self::Share { .. } => "give a share between 0 and 1, for example 0.8",
            Self::NeverReached { .. } => "check supply, resistance and inductance, or ask for less",
            Self::PaschenConstants { .. } => {
                "check the units of the constants: A and B count for a centimetre and a Torr; for air the least voltage is near 300 V"
            }
            Self::UnderPaschenMinimum { .. } => "check gap and pressure and their units",
            Self::VoltageTooLow { .. } => "give the secondary voltage, in kV",
            Self::CompressionRatio { .. } => {
                "give cylinder and chamber volume over chamber volume, for example 8"
            }
            Self::Exponent { .. } => "give 1.2 to 1.35 for the compression of a mixture",
            Self::IntakeClosing { .. } => {
                "give crank degrees after bottom dead centre, from 0, and check the ignition point"
            }
            Self::SparkPlace { .. } => "give the ignition point in crank degrees",
            Self::BandWithOneEnd => "give the lower and the upper limit of the plug gap",
            Self::Breaker(inner) => return inner.hint(),
            Self::Quantity(inner) => return inner.hint(),
            Self::Tolerance(inner) => return inner.hint(),
        })
    }
}
