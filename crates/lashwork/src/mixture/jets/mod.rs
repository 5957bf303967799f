//! Jets: which size goes with other air.
//!
//! # Conventions
//! - What a number on a jet means (flow, bore, the maker's table) is always stated.
//! - Theory, the proportional rule and a book's steps stand side by side; none is merged.
//! - Main and pilot jets are two series; a needle is no jet.
//! - Rich is the safe side.
//!
//! # Questions
//! | question | answer |
//! |---|---|
//! | How much flows through a jet of this number? | [`JetNumbering::flow`] |
//! | What does the book's rule ask for? | [`StepRule::number`] |
//! | Which jet goes with the air there? | [`rejet`] |
//!
//! # Not here
//! How dense the air is (`air`); another fuel (`float`, which knows what its density does).
//!
//! # Method
//! Fuel flows with the root of its density times the depression, and the depression with the density of the
//! air times the square of its speed. At the same volume of air the air-fuel ratio goes with the root of the
//! density.

mod answer;
mod assumption;
mod caution;
mod error;
mod numbering;
mod rule;

pub use answer::{Circuit, JetAnswer, JetQuestion, JetSeries, JetSize, RuleSays, rejet};
pub use assumption::JetAssumption;
pub use caution::JetCaution;
pub use error::JetError;
pub use numbering::{JetNumbering, JetTable, litres_an_hour};
pub use rule::{JetPlace, JetRule, StepRule};
