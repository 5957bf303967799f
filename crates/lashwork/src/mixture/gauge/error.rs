//! Why what a vacuum gauge shows cannot be weighed.

use crate::Refusal;
use crate::quantity::{AbsolutePressure, QuantityError, Vacuum};
use alloc::borrow::Cow;

/// Why what a vacuum gauge shows cannot be weighed.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::mixture::gauge::at_sea_level;
/// use lashwork::quantity::{AbsolutePressure, Vacuum};
/// let here = AbsolutePressure::parse("24.9 inHg")?;
/// let refused = at_sea_level(Vacuum::parse("25 inHg")?, here).unwrap_err();
/// assert_eq!(refused.code(), "mixture.vacuum-above-ambient");
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum GaugeError {
    /// More vacuum than there is air.
    #[error("a vacuum of {vacuum} is more than the {ambient} around")]
    BeyondAmbient {
        /// What was read.
        vacuum: Vacuum,
        /// The air around.
        ambient: AbsolutePressure,
    },
    /// More vacuum than an engine idles at.
    #[error("a vacuum of {vacuum} at idle is more than {most} kPa")]
    NoIdle {
        /// What was read.
        vacuum: Vacuum,
        /// Greatest accepted, in kilopascals.
        most: f64,
    },
    /// An amount of no movement.
    #[error("a drop of {drop} is given without a movement that has one")]
    DropOfNothing {
        /// The refused drop.
        drop: Vacuum,
    },
    /// Air that no engine runs in.
    #[error("an ambient pressure of {got} is outside {least} to {most} kPa")]
    Ambient {
        /// The refused pressure.
        got: AbsolutePressure,
        /// Least accepted, in kilopascals.
        least: f64,
        /// Greatest accepted.
        most: f64,
    },
    /// A number of cylinders that no engine has.
    #[error("an engine with no cylinders shows no vacuum")]
    NoCylinders,
    /// A chance of a wrong look at which nothing follows from one.
    #[error("a chance of a wrong look of {got} is not above 0 and below 0.5")]
    Misread {
        /// The refused chance.
        got: f64,
    },
    /// Shares of belief that are none.
    #[error("{got} as a share of belief is negative or not finite, or all shares are nought")]
    Prior {
        /// The refused share.
        got: f64,
    },
    /// A quantity that came out outside what it can be.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
}

impl Refusal for GaugeError {
    fn code(&self) -> &'static str {
        match self {
            Self::BeyondAmbient { .. } => "mixture.vacuum-above-ambient",
            Self::NoIdle { .. } => "mixture.no-idle-vacuum",
            Self::DropOfNothing { .. } => "mixture.drop-without-movement",
            Self::Ambient { .. } => "mixture.ambient-pressure",
            Self::NoCylinders => "mixture.no-cylinders",
            Self::Misread { .. } => "mixture.gauge-misread",
            Self::Prior { .. } => "mixture.gauge-prior",
            Self::Quantity(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::BeyondAmbient { .. } => {
                "check the unit, the gauge's zero and the altitude; there is no more vacuum than air"
            }
            Self::NoIdle { .. } => {
                "check the unit and that the engine idles and is not being slowed down"
            }
            Self::DropOfNothing { .. } => {
                "say how the needle moves as well: by regular drops, now and then, in small flicks or swinging"
            }
            Self::Ambient { .. } => "give the pressure of the air here, not one set to sea level",
            Self::NoCylinders => "give the number of cylinders on the manifold, or leave it out",
            Self::Misread { .. } => "give a chance above 0 and below 0.5, such as 0.05",
            Self::Prior { .. } => "give shares of nought or more, at least one above",
            Self::Quantity(inner) => return inner.hint(),
        })
    }
}
