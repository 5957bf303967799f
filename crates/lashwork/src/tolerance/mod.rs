//! Tier 1: what a reading is worth against a printed limit, and what may be said from it.
//!
//! # Conventions
//! - Everything is about one quantity `Q` ([`Measurand`]) and holds for any; what has limits
//!   ([`HasLimits`]) names what they are printed in and the rule it is usually judged by.
//! - A limit is kept as printed ([`Limits`]); a value on the limit is in the band.
//! - An estimate is a rectangle (between two leaves) convolved with a normal part
//!   ([`Estimate`]); its probabilities are computed in closed form, each on its small tail.
//! - A reading that bounds the value on one side only has bounds on its probabilities ([`Chance`]),
//!   no invented prior.
//! - A verdict is below, in or above the band, or that the reading cannot say.
//!
//! # Not here
//! How leaves make an estimate (`feeler`), how heat moves it (`thermal`).
//!
//! # Source
//! JCGM 106:2012 for conformance probability and simple acceptance; ISO 14253-1:2017 for the rule
//! of 95 % conformance probability; JCGM 100:2008 for uncertainty budgets.
//!
//! This module uses only `quantity` and `statistics`.

mod angles;
mod band_judge;
mod budget;
mod columns;
mod error;
mod estimate;
mod judgement;
pub(crate) mod known;
mod limits;
mod measurand;
mod millimetres;
mod picture;
mod predicted;
mod probabilities;
mod room;
mod rule;
mod side_by_side;
mod uncertainty;

pub use band_judge::BandJudge;
pub(crate) use budget::wider;
pub use budget::{Budget, BudgetError, Contribution};
pub use columns::{Column, JudgedRow};
pub use error::ToleranceError;
pub use estimate::Estimate;
pub(crate) use judgement::{FIRM, Firmness, as_shown, judge_known};
pub use judgement::{Judgement, Verdict, judge};
pub use limits::Limits;
pub use measurand::{HasLimits, InMillimetres, Measurand};
pub(crate) use measurand::{limited, limited_as_marked, measurand};
pub use predicted::Predicted;
pub use probabilities::{Chance, Probabilities};
pub use rule::{Deciding, DecidingSide, DecisionRule};
pub use uncertainty::Uncertainty;
