//! One thing wrong with a request.

use crate::Refusal;
use alloc::string::{String, ToString};
use serde::Serialize;

/// One thing wrong with a request: what, where, and what to do.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Problem {
    /// Where in the request, as a path of field names and indices such as `/readings/3/cylinder`.
    pub place: String,
    /// A short name that never changes.
    pub code: String,
    /// What is wrong, with the values.
    pub message: String,
    /// What to do about it.
    pub hint: String,
}

impl Problem {
    /// What a refusal says, at a place.
    ///
    /// ```
    /// use lashwork::job::Problem;
    /// use lashwork::quantity::Marked;
    /// let refused = Marked::parse("0.15").unwrap_err();
    /// assert_eq!(Problem::at("/gauge/leaves/0", &refused).code, "quantity.no-unit");
    /// ```
    pub fn at(place: impl Into<String>, refused: &dyn Refusal) -> Self {
        Self::new(place, refused.code(), refused.to_string(), refused.hint())
    }

    /// Puts a problem together.
    pub fn new(
        place: impl Into<String>,
        code: impl Into<String>,
        message: impl Into<String>,
        hint: impl Into<String>,
    ) -> Self {
        Self {
            place: place.into(),
            code: code.into(),
            message: message.into(),
            hint: hint.into(),
        }
    }
}
