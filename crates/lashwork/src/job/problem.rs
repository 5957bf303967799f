//! One thing wrong with a request.

use alloc::string::String;
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
