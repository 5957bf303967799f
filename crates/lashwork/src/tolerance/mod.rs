//! Tier 1: what a reading is worth against a printed limit, and what may be said from it.
//!
//! # Conventions
//! - A limit is exact ([`Limits`] of [`Marked`](crate::quantity::Marked)); a value on the limit is
//!   in the band.
//! - An estimate is a rectangle (between two leaves) convolved with a normal part
//!   ([`LashEstimate`]); its probabilities are computed in closed form, each on its small tail.
//! - A reading that bounds the gap on one side only has bounds on its probabilities ([`Chance`]),
//!   no invented prior.
//! - Tight means below the band, loose means above it.
//!
//! # Not here
//! How leaves make an estimate (`feeler`), how heat moves it (`thermal`).
//!
//! # Source
//! JCGM 106:2012 for conformance probability and simple acceptance; ISO 14253-1:2017 for the rule
//! of 95 % conformance probability; JCGM 100:2008 for uncertainty budgets.
//!
//! This module uses only `quantity` and `statistics`.

mod band_judge;
mod budget;
mod error;
mod estimate;
mod limits;
mod picture;
mod predicted;
mod rule;

pub use band_judge::BandJudge;
pub use budget::{Budget, BudgetError, Contribution};
pub use error::ToleranceError;
pub use estimate::{Chance, LashEstimate, LashUncertainty, Probabilities};
pub use limits::Limits;
pub use predicted::Predicted;
pub use rule::{DecisionRule, Judgement, Verdict, judge};
