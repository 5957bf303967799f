//! What a service needs to know, in typed values: the engine, and a section for each step that is asked
//! for.

use super::causes::Causes;
use super::clearance::Clearance;
use super::condition::Condition;
use super::history::History;
use super::ignition::Ignition;
use super::machine::Machine;
use super::mixture::Mixture;
use super::record::Record;
use super::units::{ShownTemperature, Units};
use super::work::WorkDone;
use crate::engine::{Engine, Pulley};
use alloc::string::String;
use alloc::vec::Vec;

/// A whole job. Only the engine is needed; each section beside it is one step of the service.
///
/// ```
/// use lashwork::engine::{layout, Engine};
/// use lashwork::job::{Request, run};
///
/// let engine = Engine::builder(layout::inline(1, &[])).two_stroke().build()
///     .map_err(|errors| format!("{errors:?}"))?;
/// let report = run(&Request::new(engine).titled("Invented two-stroke")).map_err(|p| format!("{p:?}"))?;
/// assert_eq!(report.engine.firing.len(), 1);
/// assert!(report.clearance.is_none());
/// # Ok::<(), String>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Request {
    /// What the engine is called.
    pub title: Option<String>,
    /// Anything the writer wants to keep with the job.
    pub note: Option<String>,
    /// When, by whom and with what the readings were taken.
    pub record: Record,
    /// In which units texts say lengths and temperatures.
    pub units: Units,
    /// The engine.
    pub engine: Engine,
    /// What it stands in and how it is started.
    pub machine: Machine,
    /// Its number, to tell which specification applies.
    pub engine_number: Option<u64>,
    /// The pulley that carries the marks.
    pub pulley: Option<Pulley>,
    /// What was done in this service, in the order it was done.
    pub log: Vec<WorkDone>,
    /// Valve clearances.
    pub clearance: Option<Clearance>,
    /// Condition.
    pub condition: Option<Condition>,
    /// Ignition.
    pub ignition: Option<Ignition>,
    /// Mixture.
    pub mixture: Option<Mixture>,
    /// What past services found and left.
    pub history: Option<History>,
    /// What may be the matter, by what the sections found.
    pub causes: Option<Causes>,
}

impl Request {
    /// A job that says no more than which engine it is.
    #[must_use]
    pub const fn new(engine: Engine) -> Self {
        Self {
            title: None,
            note: None,
            record: Record {
                date: None,
                machine: None,
                hours: None,
                distance: None,
                gauge: None,
                by: None,
            },
            units: Units {
                length: None,
                temperature: ShownTemperature::Celsius,
            },
            engine,
            machine: Machine {
                stands_in: None,
                ignition: None,
                started_by: None,
            },
            engine_number: None,
            pulley: None,
            log: Vec::new(),
            clearance: None,
            condition: None,
            ignition: None,
            mixture: None,
            history: None,
            causes: None,
        }
    }

    /// With what the engine is called.
    #[must_use]
    pub fn titled(self, title: impl Into<String>) -> Self {
        Self {
            title: Some(title.into()),
            ..self
        }
    }

    /// With when, by whom and with what the readings were taken.
    #[must_use]
    pub fn recorded(self, record: Record) -> Self {
        Self { record, ..self }
    }

    /// With the units in which texts say lengths and temperatures.
    #[must_use]
    pub fn shown_in(self, units: Units) -> Self {
        Self { units, ..self }
    }

    /// With what the engine stands in and how it is started.
    #[must_use]
    pub fn standing_in(self, machine: Machine) -> Self {
        Self { machine, ..self }
    }

    /// With the engine's number.
    #[must_use]
    pub fn numbered(self, engine_number: u64) -> Self {
        Self {
            engine_number: Some(engine_number),
            ..self
        }
    }

    /// With the pulley that carries the marks.
    #[must_use]
    pub fn with_pulley(self, pulley: Pulley) -> Self {
        Self {
            pulley: Some(pulley),
            ..self
        }
    }

    /// With the valve clearances.
    #[must_use]
    pub fn with_clearance(self, clearance: Clearance) -> Self {
        Self {
            clearance: Some(clearance),
            ..self
        }
    }

    /// With what was done in this service, in the order it was done.
    #[must_use]
    pub fn done(self, log: Vec<WorkDone>) -> Self {
        Self { log, ..self }
    }

    /// With the engine's condition.
    #[must_use]
    pub fn with_condition(self, condition: Condition) -> Self {
        Self {
            condition: Some(condition),
            ..self
        }
    }

    /// With the ignition.
    #[must_use]
    pub fn with_ignition(self, ignition: Ignition) -> Self {
        Self {
            ignition: Some(ignition),
            ..self
        }
    }

    /// With the mixture.
    #[must_use]
    pub fn with_mixture(self, mixture: Mixture) -> Self {
        Self {
            mixture: Some(mixture),
            ..self
        }
    }

    /// With what past services found and left.
    #[must_use]
    pub fn with_history(self, history: History) -> Self {
        Self {
            history: Some(history),
            ..self
        }
    }

    /// With what may be the matter.
    #[must_use]
    pub fn with_causes(self, causes: Causes) -> Self {
        Self {
            causes: Some(causes),
            ..self
        }
    }
}
