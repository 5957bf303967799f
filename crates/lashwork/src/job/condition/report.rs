//! What the condition step answers.

use super::compression::CompressionReport;
use super::head::HeadReport;
use super::leak::LeakDownReport;
use crate::job::work::{NextWorkReport, StepReport, WorkStopReport};
use alloc::vec::Vec;
use serde::Serialize;

/// Condition: what state the engine is in, and where to look next.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ConditionReport {
    /// What must be settled before the steps it concerns; the first thing to read.
    pub stop_work: Vec<WorkStopReport>,
    /// Where each step stands, in the order of work.
    pub steps: Vec<StepReport>,
    /// The step that comes next, of these or not begun; none if nothing is left to do.
    pub next: Option<NextWorkReport>,
    /// The head's bolts, if they were asked for.
    pub head: Option<HeadReport>,
    /// Cranking compression, if it was asked for.
    pub compression: Option<CompressionReport>,
    /// Leak-down, if it was asked for.
    pub leak: Option<LeakDownReport>,
}
