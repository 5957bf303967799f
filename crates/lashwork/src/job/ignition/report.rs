//! What the ignition step answers.

use super::contacts::ContactsReport;
use super::electrics::ElectricsReport;
use super::evenness::EvennessReport;
use super::leads::LeadsReport;
use super::magneto::MagnetoReport;
use super::point::IgnitionPointReport;
use super::timing::TimingReport;
use crate::job::work::{NextWorkReport, StepReport, WorkStopReport};
use crate::mixture::gauge::TimingFound;
use crate::tolerance::FIRM;
use alloc::vec::Vec;
use serde::Serialize;

/// Ignition: what was read, what to turn, and in which order.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct IgnitionReport {
    /// What must be settled before the steps it concerns; the first thing to read.
    pub stop_work: Vec<WorkStopReport>,
    /// Where each step stands, in the order of work.
    pub steps: Vec<StepReport>,
    /// The step that comes next, of these or not begun; none if nothing is left to do.
    pub next: Option<NextWorkReport>,
    /// Leads and distributor drive, if they were asked for.
    pub leads: Option<LeadsReport>,
    /// The contacts, if they were asked for.
    pub contacts: Option<ContactsReport>,
    /// Coil, condenser and plugs, if they were asked for.
    pub electrics: Option<ElectricsReport>,
    /// Timing and advance, if they were asked for.
    pub timing: Option<TimingReport>,
    /// How evenly the cylinders fire, if it was asked for.
    pub evenness: Option<EvennessReport>,
    /// The magnetos, if they were asked for.
    pub magneto: Option<MagnetoReport>,
    /// One ignition point by every tool, if it was asked for.
    pub point: Option<IgnitionPointReport>,
}

impl IgnitionReport {
    /// Which way the timing is out, as evidence for what a vacuum gauge shows; none if that is not certain.
    pub(in crate::job) fn timing_found(&self) -> Option<TimingFound> {
        let found = self.timing.as_ref()?.found.as_ref()?;
        let p = &found.probabilities;
        match (p.below.least >= FIRM, p.above.least >= FIRM) {
            (true, _) => Some(TimingFound::Late),
            (_, true) => Some(TimingFound::Early),
            _ => None,
        }
    }
}
