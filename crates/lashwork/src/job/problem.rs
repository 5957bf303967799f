//! One thing wrong with a request.

use super::place::Place;
use crate::Refusal;
use alloc::string::{String, ToString};
use core::fmt;

/// One thing wrong with a request: what, where, and what to do.
///
/// ```
/// use lashwork::job::{Place, Problem};
/// let problem = Problem {
///     place: Place::Reading(3),
///     code: "job.valve-read-twice",
///     message: "cylinder 2 intake has a second reading".into(),
///     hint: "keep one reading per valve".into(),
/// };
/// assert!(problem.to_string().starts_with("reading 4: cylinder 2 intake"));
/// ```
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Problem {
    /// Where in the request.
    pub place: Place,
    /// A short name that never changes.
    pub code: &'static str,
    /// What is wrong, with the values.
    pub message: String,
    /// What to do about it.
    pub hint: String,
}

impl Problem {
    pub(super) fn new(
        place: Place,
        code: &'static str,
        message: impl Into<String>,
        hint: impl Into<String>,
    ) -> Self {
        Self {
            place,
            code,
            message: message.into(),
            hint: hint.into(),
        }
    }

    /// A refusal of an area, at a place of the request.
    ///
    /// ```
    /// use lashwork::job::{Place, Problem};
    /// use lashwork::quantity::Marked;
    /// let refused = Marked::parse("0.15").unwrap_err();
    /// assert_eq!(Problem::at(Place::Metal, &refused).code, "quantity.no-unit");
    /// ```
    #[must_use]
    pub fn at(place: Place, error: &dyn Refusal) -> Self {
        Self::new(place, error.code(), error.to_string(), error.hint())
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (place, message, hint) = (&self.place, &self.message, &self.hint);
        write!(f, "{place}: {message}; {hint} ({})", self.code)
    }
}
