//! Limits in a document: from, to, or both.

use crate::problem::{Problem, value};
use crate::quantity::Q;
use lashwork::tolerance::{HasLimits, Limits};

/// A band of limits; one end may be open.
pub(crate) fn band<T: HasLimits>(
    from: Option<Q<T::Printed>>,
    to: Option<Q<T::Printed>>,
    place: impl Into<String>,
    problems: &mut Vec<Problem>,
) -> Option<Limits<T>> {
    match (from, to) {
        (Some(from), Some(to)) => value(problems, place, Limits::between(from.0, to.0)),
        (Some(from), None) => Some(Limits::at_least(from.0)),
        (None, Some(to)) => Some(Limits::at_most(to.0)),
        (None, None) => {
            problems.push(Problem::new(
                place,
                "tolerance.empty-band",
                "a band needs at least one limit",
                "give \"from\", \"to\" or both",
            ));
            None
        }
    }
}
