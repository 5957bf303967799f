//! What must be settled before any valve is set, as the report shows it.

use crate::job::clearance::settle::StopWorkCode;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// Something to settle before any valve it names is touched.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct StopWorkReport {
    /// What it is.
    pub code: StopWorkCode,
    /// What was found, and what to do about it.
    pub text: String,
    /// The valves whose numbers it spoils: their advice is `settle_first`.
    pub valves: Vec<String>,
}
