//! Why a quantity could not be made or read.

use super::{Quoted, Refusal};
use alloc::borrow::Cow;
use alloc::string::String;

/// Why a quantity could not be made or read from text.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum QuantityError {
    /// The text holds no number.
    #[error("{what} {} is not a number with a unit", Quoted(.text))]
    NotANumber {
        /// The quantity that was expected.
        what: &'static str,
        /// The text as it was written.
        text: String,
    },
    /// A number stands alone: 0.15 could be millimetres or inches.
    #[error("{what} {} has no unit, so its size is unknown", Quoted(.text))]
    NoUnit {
        /// The quantity that was expected.
        what: &'static str,
        /// The text as it was written.
        text: String,
        /// The units that are understood.
        accepted: &'static str,
    },
    /// The unit is not one of this quantity.
    #[error("{} is not a unit of {what}", Quoted(.unit))]
    UnknownUnit {
        /// The quantity that was expected.
        what: &'static str,
        /// The unit as it was written.
        unit: String,
        /// The units that are understood.
        accepted: &'static str,
    },
    /// More digits than the quantity can hold without loss.
    #[error("{what} {} {limit}", Quoted(.text))]
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
            Self::UnknownUnit { unit, accepted, .. } => instead_of(unit).map_or_else(
                || Cow::Owned(after_the_number(accepted)),
                |what| Cow::Owned(alloc::format!("{what}; units: {accepted}")),
            ),
            Self::NoUnit { accepted, .. } => Cow::Owned(after_the_number(accepted)),
            Self::TooFine { .. } => Cow::Borrowed("write fewer decimals"),
            Self::OutOfRange { min, max, unit, .. } => {
                Cow::Owned(alloc::format!("give a value from {min} to {max} {unit}"))
            }
        }
    }
}

fn after_the_number(accepted: &str) -> String {
    alloc::format!("write the unit after the number: {accepted}")
}

/// What to write where more than a unit stands behind the number, as people write it on paper.
fn instead_of(unit: &str) -> Option<&'static str> {
    let next_is_digit = |rest: &str| rest.trim_start().starts_with(|c: char| c.is_ascii_digit());
    let range = ["-", "\u{2013}", "to ", "..", "+-", "+/-", "\u{b1}"];
    if unit.strip_prefix('/').is_some_and(next_is_digit) {
        Some("write the fraction as a decimal number, as in \"0.25\" for 1/4")
    } else if range
        .iter()
        .filter_map(|r| unit.strip_prefix(r))
        .any(next_is_digit)
    {
        Some("write one value; a range or an uncertainty has a field of its own")
    } else if ["BTDC", "ATDC", "BBDC", "ABDC"]
        .iter()
        .any(|side| ends_in(unit, side))
    {
        Some(
            "write the angle alone: before or after which dead centre is in the name of the field, and a negative angle lies on the other side",
        )
    } else {
        None
    }
}

fn ends_in(unit: &str, side: &str) -> bool {
    let last = unit.rsplit(' ').next().unwrap_or("");
    last.eq_ignore_ascii_case(side)
}

/// Whether `got` is finite and within `min..=max`; NaN fails both comparisons.
#[inline]
pub(crate) const fn within(got: f64, min: f64, max: f64) -> bool {
    min <= got && got <= max
}

/// Accepts `got` if it is [`within`] `min..=max`.
pub(crate) fn check(
    what: &'static str,
    unit: &'static str,
    got: f64,
    min: f64,
    max: f64,
) -> Result<f64, QuantityError> {
    if within(got, min, max) {
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
