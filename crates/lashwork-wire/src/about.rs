//! A value with its standard uncertainty in a document.

use crate::problem::{Problem, value};
use crate::quantity::{Q, Written};
use lashwork::tolerance::{Estimate, Measurand, Uncertainty};

/// A value with its standard uncertainty, in the same quantity.
pub(crate) fn about<T: Measurand + Written>(
    read: Q<T>,
    u: Q<T>,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<Estimate<T>> {
    let u = Uncertainty::from_number(u.0.number());
    let u = value(problems, place, u)?;
    value(problems, place, Estimate::between(read.0, read.0, u))
}

/// The same of two fields that are given together or not at all.
pub(crate) fn pair<T: Measurand + Written>(
    read: Option<Q<T>>,
    u: Option<Q<T>>,
    field: &str,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<Estimate<T>> {
    match (read, u) {
        (Some(read), Some(u)) => about(read, u, place, problems),
        (None, None) => None,
        _ => {
            problems.push(Problem::new(
                place,
                "document.missing-field",
                format!("a value and its {field:?} do not stand together"),
                format!("give the value and {field:?}, or neither"),
            ));
            None
        }
    }
}
