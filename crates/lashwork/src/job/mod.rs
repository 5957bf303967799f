//! Tier 4: a whole job, from a [`Request`] of typed values to a [`Report`] and a job sheet.
//!
//! A section a step of the service, a folder a section; inside it a folder a question.
//!
//! # Conventions
//! - Nothing is chosen silently: what the kernel had to assume is listed in [`Report::assumptions`].
//! - Several specifications are judged side by side; only those known not to apply are left out.
//! - All problems of a request are reported together.
//!
//! Uses every other module of the crate.

mod assumptions;
pub mod causes;
mod cautions;
pub mod clearance;
pub mod condition;
mod engine;
pub mod history;
pub mod ignition;
mod known;
mod machine;
pub mod mixture;
mod page;
mod place;
mod problem;
mod record;
mod report;
mod request;
mod run;
mod sheet;
mod text;
mod units;
mod work;

pub use assumptions::{Assumption, BearsOn};
pub use engine::answer::{CamRingReport, DeadCentreReport, EngineReport, FiringReport};
pub use machine::{FiredBy, Machine, StandsIn, StartedBy};
pub use place::Place;
pub use problem::Problem;
pub use record::Record;
pub use report::Report;
pub use request::Request;
pub use run::run;
pub use units::{ShownLength, ShownTemperature, Units};
pub use work::{
    MeasuredReport, NextWorkReport, ServiceReport, ServiceState, ServiceStepReport, Settled,
    Standing, StepReport, WorkAdvice, WorkDone, WorkStep, WorkStopReport,
};
