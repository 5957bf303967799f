//! The answer to a [`Request`](super::Request), made to be serialised and shown.

use super::assumptions::Assumption;
use super::causes::CausesReport;
use super::clearance::ClearanceReport;
use super::condition::ConditionReport;
use super::engine::answer::EngineReport;
use super::history::HistoryReport;
use super::ignition::IgnitionReport;
use super::mixture::MixtureReport;
use super::record::Record;
use super::units::Units;
use super::work::ServiceReport;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// The whole answer, in the sections of the request.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct Report {
    /// What the engine is called, if that was said.
    pub title: Option<String>,
    /// The request's note.
    pub note: Option<String>,
    /// When, by whom and with what the readings were taken.
    pub record: Record,
    /// In which units its texts say lengths and temperatures.
    pub units: Units,
    /// The engine as understood.
    pub engine: EngineReport,
    /// The whole service, where it has more than one step.
    pub service: Option<ServiceReport>,
    /// Valve clearances, if they were asked for.
    pub clearance: Option<ClearanceReport>,
    /// Condition, if it was asked for.
    pub condition: Option<ConditionReport>,
    /// Ignition, if it was asked for.
    pub ignition: Option<IgnitionReport>,
    /// Mixture, if it was asked for.
    pub mixture: Option<MixtureReport>,
    /// What past services say, if they were given.
    pub history: Option<HistoryReport>,
    /// What may be the matter, if that was asked for.
    pub causes: Option<CausesReport>,
    /// What had to be assumed.
    pub assumptions: Vec<Assumption>,
    /// What can hurt someone.
    pub cautions: Vec<&'static str>,
}
