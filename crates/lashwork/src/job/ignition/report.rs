//! What the ignition step answers.

use super::contacts::ContactsReport;
use super::electrics::ElectricsReport;
use super::evenness::EvennessReport;
use super::leads::LeadsReport;
use super::magneto::MagnetoReport;
use super::order::{IgnitionStopReport, StepReport};
use super::point::IgnitionPointReport;
use super::timing::TimingReport;
use alloc::vec::Vec;
use serde::Serialize;

/// Ignition: what was read, what to turn, and in which order.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct IgnitionReport {
    /// What must be settled before the steps it concerns; the first thing to read.
    pub stop_work: Vec<IgnitionStopReport>,
    /// Where each step stands, in the order of work.
    pub steps: Vec<StepReport>,
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
