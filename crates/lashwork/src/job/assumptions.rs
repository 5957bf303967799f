//! What a request leaves open and what is assumed instead, gathered for the report.

use alloc::string::{String, ToString};
use alloc::vec::Vec;
use serde::Serialize;

/// Something the kernel had to assume because the request did not say it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Assumption {
    /// A short name that never changes.
    pub code: String,
    /// What was assumed, with values.
    pub text: String,
}

/// The assumptions of one run, each once.
#[derive(Default)]
pub(super) struct Assumptions(Vec<Assumption>);

impl Assumptions {
    /// Notes one.
    pub(super) fn add(&mut self, code: &str, text: impl Into<String>) {
        self.0.push(Assumption {
            code: code.to_string(),
            text: text.into(),
        });
    }

    /// The list, in order of codes.
    pub(super) fn list(mut self) -> Vec<Assumption> {
        self.0.sort();
        self.0.dedup();
        self.0
    }
}
