//! Why something about a head's bolts was refused.

use crate::Refusal;
use crate::quantity::{Length, QuantityError, Torque};
use crate::tolerance::ToleranceError;
use alloc::borrow::Cow;
use alloc::string::String;

/// Why something about a head's bolts was refused.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::condition::head::sequence;
/// assert_eq!(sequence(&[]).unwrap_err().code(), "condition.head-no-bolts");
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum HeadError {
    /// No bolt.
    #[error("there is no bolt")]
    NoBolts,
    /// Two bolts of one name.
    #[error("bolt {name} is there twice")]
    BoltTwice {
        /// The name.
        name: String,
    },
    /// Two bolts at one place.
    #[error("bolts {first} and {second} are {apart:.1} mm apart")]
    OnePlace {
        /// One of them.
        first: String,
        /// The other.
        second: String,
        /// Millimetres between them.
        apart: f64,
    },
    /// An order that names other bolts.
    #[error("bolt {name} is not in both the pattern and the order")]
    OtherBolts {
        /// The name.
        name: String,
    },
    /// A wrench or an adapter of no use.
    #[error("{what} of {} mm is outside {min} to {max} mm", .length.mm())]
    Length {
        /// What.
        what: &'static str,
        /// The refused length.
        length: Length,
        /// Least, in millimetres.
        min: f64,
        /// Greatest.
        max: f64,
    },
    /// An adapter folded back over the grip.
    #[error("the adapter leaves {left:.0} mm from the bolt to the grip")]
    FoldedBack {
        /// Millimetres that are left.
        left: f64,
    },
    /// A torque outside what the wrench is good for.
    #[error("{torque} is outside the {least} to {most} of the wrench")]
    WrenchRange {
        /// The refused torque.
        torque: Torque,
        /// Least.
        least: Torque,
        /// Greatest.
        most: Torque,
    },
    /// A wrench of no class.
    #[error("a wrench that is right to {got} % is outside 0.5 to 20 %")]
    WrenchClass {
        /// The refused percentage.
        got: f64,
    },
    /// A band that is narrower than the wrench.
    #[error(
        "a band of {band:.1} % either way is narrower than the wrench, which is right to {wrench} %"
    )]
    FinerThanWrench {
        /// Of the band.
        band: f64,
        /// Of the wrench.
        wrench: f64,
    },
    /// A factor or a friction of no thread.
    #[error("{what} of {got} is outside {min} to {max}")]
    Number {
        /// What.
        what: &'static str,
        /// The refused number.
        got: f64,
        /// Least.
        min: f64,
        /// Greatest.
        max: f64,
    },
    /// Two printed figures that cannot be compared.
    #[error("the two printed torques are no torques above nothing")]
    NoTorque,
    /// A number that a quantity cannot be.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
    /// An uncertainty or an estimate that cannot be.
    #[error(transparent)]
    Tolerance(#[from] ToleranceError),
}

impl Refusal for HeadError {
    fn code(&self) -> &'static str {
        match self {
            Self::NoBolts => "condition.head-no-bolts",
            Self::BoltTwice { .. } => "condition.head-bolt-twice",
            Self::OnePlace { .. } => "condition.head-one-place",
            Self::OtherBolts { .. } => "condition.head-other-bolts",
            Self::Length { .. } => "condition.head-length",
            Self::FoldedBack { .. } => "condition.head-folded-back",
            Self::WrenchRange { .. } => "condition.head-wrench-range",
            Self::WrenchClass { .. } => "condition.head-wrench-class",
            Self::FinerThanWrench { .. } => "condition.head-finer-than-wrench",
            Self::Number { .. } => "condition.head-number",
            Self::NoTorque => "condition.head-no-torque",
            Self::Quantity(inner) => inner.code(),
            Self::Tolerance(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::NoBolts => "give the bolts with their places",
            Self::BoltTwice { .. } => "give each bolt a name of its own",
            Self::OnePlace { .. } => "check the places and their unit",
            Self::OtherBolts { .. } => "name each bolt of the pattern once in the order",
            Self::Length { .. } => {
                "give the length from the drive to the middle of the grip, and of the adapter from drive to bolt"
            }
            Self::FoldedBack { .. } => "turn the adapter forward or square to the wrench",
            Self::WrenchRange { .. } => {
                "take another wrench: below a fifth of its scale it is not right to its class"
            }
            Self::WrenchClass { .. } => {
                "give the deviation that the wrench is allowed, such as 4 %"
            }
            Self::FinerThanWrench { .. } => "take a better wrench, or have this one calibrated",
            Self::Number { .. } => {
                "check the figure; a nut factor is about 0.2, a friction about 0.12"
            }
            Self::NoTorque => "give each as a number with its unit",
            Self::Quantity(inner) => return inner.hint(),
            Self::Tolerance(inner) => return inner.hint(),
        })
    }
}

/// A number within its range.
pub(super) fn within(
    what: &'static str,
    got: f64,
    (min, max): (f64, f64),
) -> Result<f64, HeadError> {
    if (min..=max).contains(&got) {
        Ok(got)
    } else {
        Err(HeadError::Number {
            what,
            got,
            min,
            max,
        })
    }
}
