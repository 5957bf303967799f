//! What past services say: how fast a lash, a dwell or a compression changes, and when to look next.
//!
//! # Conventions
//! - A [`Record`] is of one engine and one quantity; services follow in time and are only added.
//! - It goes by hours run, distance or days ([`CountedBy`]); rates are for a unit of that.
//! - A setting begins a new stretch with a level of its own; the rate goes through. What was found belongs to
//!   the stretch before, what was left to the one after.
//! - Subjects of one kind (exhaust valves, cylinders) have rates of their own that scatter about one, so
//!   that those with few readings borrow from their mates.
//! - A reading between two leaves counts as the interval it is.
//!
//! # Questions
//! | question | answer |
//! |---|---|
//! | How fast does it change? | [`drift`], [`Drift::rate_of`] |
//! | Where will it be, and how certain is that? | [`Drift::predicted`], [`Drift::probabilities`] |
//! | When to look next? | [`Drift::look_next`] |
//! | Does one move unlike its mates, and since when? | [`Drift::standings`] |
//! | Do exhaust seats sink for want of lead? | [`recession`] |
//! | What does a chart show? | [`Record::chart_readings`], [`Drift::chart_lines`], [`Drift::departures`] |
//! | What did new parts do before they had bedded in? | [`Drift::bedding`] |
//! | The same from columns of plain numbers? | [`PastReadings::record`], [`drift_columns`] |
//!
//! # Sources
//! Named in each file. Lines with a level a stretch are analysis of covariance; intervals of few readings are
//! Student's, which the tests hold against published examples.

mod answer;
mod assumption;
mod bedding;
mod chart;
mod columns;
mod course;
mod departures;
mod drift;
mod error;
mod fit;
mod look;
mod mix;
mod odd;
mod pooled;
mod posterior;
mod ray;
mod recession;
mod record;
mod rows;
mod site;
mod used;

pub use answer::{Bedding, Departure, Figure, Forecast, NotKnown, TooFew};
pub use assumption::HistoryAssumption;
pub use chart::ChartReading;
pub use columns::{DriftRow, WhenToLook, drift_columns};
pub use drift::Drift;
pub use error::HistoryError;
pub use fit::{DriftAnswer, DriftChoice, drift};
pub use look::{Due, Look, Reaches};
pub use odd::Standing;
pub use recession::{Recession, SeatFact, SeatFacts, recession};
pub use record::{Record, Reset, Service, Subject, Visit};
pub use rows::{PastReadings, PastState};
pub use used::{CountedBy, Day, DistanceUnit, Used};
