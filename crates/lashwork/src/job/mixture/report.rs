//! What the mixture step answers.

use super::air::AirAroundReport;
use super::balance::BalanceReport;
use super::float::FloatReport;
use super::gas::GasReport;
use super::gauge::GaugeReport;
use super::idle::IdleReport;
use super::jets::JetsReport;
use crate::job::work::{NextWorkReport, StepReport, WorkStopReport};
use alloc::vec::Vec;
use serde::Serialize;

/// Mixture: what was read, what to turn, and in which order.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct MixtureReport {
    /// What must be settled before the steps it concerns; the first thing to read.
    pub stop_work: Vec<WorkStopReport>,
    /// Where each step stands, in the order of work.
    pub steps: Vec<StepReport>,
    /// The step that comes next, of these or not begun; none if nothing is left to do.
    pub next: Option<NextWorkReport>,
    /// The air around, if it was said.
    pub air: Option<AirAroundReport>,
    /// What the vacuum gauge says, if it was asked for.
    pub gauge: Option<GaugeReport>,
    /// The fuel level, if it was asked for.
    pub float: Option<FloatReport>,
    /// Which jets go with the air there is, if they were asked for.
    pub jets: Option<JetsReport>,
    /// The balance, if it was asked for.
    pub balance: Option<BalanceReport>,
    /// Idle speed and mixture, if they were asked for.
    pub idle: Option<IdleReport>,
    /// The exhaust gas, if it was asked for.
    pub gas: Option<GasReport>,
}
