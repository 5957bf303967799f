//! Marks and lengths as a sheet shows them.

use crate::quantity::shown::by_hand;
use crate::quantity::{Lash, LengthUnit, Marked};
use crate::tolerance::Limits;
use alloc::format;
use alloc::string::{String, ToString};

/// A size of a shim, which is bought by its number and measured with a micrometer: to 0.001 mm or 0.0001 in.
/// `show` writes it in a unit with so many decimals.
pub(crate) fn thickness(inches: bool, show: &dyn Fn(LengthUnit, u8) -> String) -> String {
    if inches {
        show(LengthUnit::Inch, 4)
    } else {
        show(LengthUnit::Millimetre, 3)
    }
}

/// A printed length as it is printed; behind it in the unit that is read, if that is another.
pub(crate) fn printed(mark: Marked, inches: bool) -> String {
    let other = (mark.unit().is_inch() != inches).then(|| by_hand(mark.mm(), inches));
    beside(mark.to_string(), other)
}

/// The same of printed limits.
pub(crate) fn printed_limits(limits: &Limits<Lash>, inches: bool) -> String {
    let is_other = |mark: Option<Marked>| mark.is_some_and(|mark| mark.unit().is_inch() != inches);
    let end = |mark: Option<Marked>| mark.map(|mark| by_hand(mark.mm(), inches));
    let other = if is_other(limits.lower()) || is_other(limits.upper()) {
        match (end(limits.lower()), end(limits.upper())) {
            (Some(low), Some(high)) => Some(format!("{low} to {high}")),
            (one, None) | (None, one) => one,
        }
    } else {
        None
    };
    beside(limits.to_string(), other)
}

fn beside(printed: String, other: Option<String>) -> String {
    match other {
        Some(other) => format!("{printed} ({other})"),
        None => printed,
    }
}
