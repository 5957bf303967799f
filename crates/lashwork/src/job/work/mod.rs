//! What the steps of the service have in common: what to do, a quantity against its printed limits, and
//! the order in which the steps stand on each other.

mod advice;
mod ask;
mod judged;
mod log;
mod next;
mod order;
mod service;
mod step;

pub use advice::WorkAdvice;
pub(super) use advice::{write_advice, write_amounts, write_further};
pub(super) use ask::Work;
pub use judged::MeasuredReport;
pub(super) use judged::{Sides, judged, told};
pub use log::WorkDone;
pub(super) use log::{LashMoves, Linked, ReadWhen};
pub use next::NextWorkReport;
pub(super) use next::write_next;
pub(super) use order::{Before, Order, write_steps, write_stops};
pub use order::{Settled, Standing, StepReport, WorkStopReport};
pub use service::{ServiceReport, ServiceState, ServiceStepReport};
pub(super) use service::{write_service, write_service_steps};
pub(super) use step::Section;
pub use step::WorkStep;
