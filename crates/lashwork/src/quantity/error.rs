//! Why a quantity could not be made or read.

use super::Refusal;
use alloc::borrow::Cow;
use alloc::string::String;

/// Why a quantity could not be made or read from text.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum QuantityError {
    /// The text holds no number.
    #[error("{what} {text:?} is not a number with a unit")]
    NotANumber {
        /// The quantity that was expected.
        what: &'static str,
        /// The text as it was written.
        text: String,
    },
    /// A number stands alone: 0.15 could be millimetres or inches.
    #[error("{what} {text:?} has no unit, so its size is unknown")]
    NoUnit {
        /// The quantity that was expected.
        what: &'static str,
        /// The text as it was written.
        text: String,
        /// The units that are understood.
        accepted: &'static str,
    },
    /// The unit is not one of this quantity.
    #[error("{unit:?} is not a unit of {what}")]
    UnknownUnit {
        /// The quantity that was expected.
        what: &'static str,
        /// The unit as it was written.
        unit: String,
        /// The units that are understood.
        accepted: &'static str,
    },
    /// More digits than the quantity can hold without loss.
    #[error("{what} {text:?} {limit}")]
    TooFine {
        /// The quantity that was expected.
        what: &'static str,
        /// The text as it was written.
        text: String,
        /// What it exceeds, in words.
        limit: &'static str,
    },
    /// Not finite, or outside what the quantity can physically be.
    #[error("{what} {got} {unit} is outside {min} to {max} {unit}")]
    OutOfRange {
        /// The quantity.
        what: &'static str,
        /// The refused number.
        got: f64,
        /// Its unit.
        unit: &'static str,
        /// Least value that is accepted.
        min: f64,
        /// Greatest value that is accepted.
        max: f64,
    },
}

impl Refusal for QuantityError {
    fn code(&self) -> &'static str {
        match self {
            Self::NotANumber { .. } => "quantity.not-a-number",
            Self::NoUnit { .. } => "quantity.no-unit",
            Self::UnknownUnit { .. } => "quantity.unknown-unit",
            Self::TooFine { .. } => "quantity.too-fine",
            Self::OutOfRange { .. } => "quantity.out-of-range",
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        match self {
            Self::NotANumber { .. } => Cow::Borrowed(
                "write digits, at most one decimal comma or point, then the unit, as in \"0.15 mm\"",
            ),
            Self::NoUnit { accepted, .. } | Self::UnknownUnit { accepted, .. } => Cow::Owned(
                alloc::format!("write the unit after the number: {accepted}"),
            ),
            Self::TooFine { .. } => Cow::Borrowed("write fewer decimals"),
            Self::OutOfRange { min, max, unit, .. } => {
                Cow::Owned(alloc::format!("give a value from {min} to {max} {unit}"))
            }
        }
    }
}

/// Accepts `got` if it is finite and within `min..=max`; NaN fails both comparisons.
pub(super) fn check(
    what: &'static str,
    unit: &'static str,
    got: f64,
    min: f64,
    max: f64,
) -> Result<f64, QuantityError> {
    if min <= got && got <= max {
        Ok(got)
    } else {
        Err(QuantityError::OutOfRange {
            what,
            got,
            unit,
            min,
            max,
        })
    }
}
