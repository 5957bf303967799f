//! Which cylinder each lead really goes to, and whether the distributor is in by the right tooth.
//!
//! # Conventions
//! - A tower is numbered from 0 in the order in which the rotor passes them; tower 0 is the one that
//!   belongs to the first cylinder of the firing order, and towers stand as the sparks are spaced.
//! - The rotor's place is its angle past tower 0, in the rotor's sense, against the cap on its body.
//! - The rotor is ahead of its place where it reaches a tower too early: the spark is as much too early.
//! - A look at the crank by its mark alone may be one turn out; it counts as checked only where somebody
//!   made sure which stroke the cylinder is on.
//!
//! # Questions
//! | question | answer |
//! |---|---|
//! | What may be the matter, and where does each spark then go? | [`LeadState`], [`LeadFault`] |
//! | What was found? | [`Look`] |
//! | What is the most probable explanation, and where to look next? | [`LeadCheck::weigh`] |
//!
//! # Method
//! As for a crank and its rockers: Bayes' rule over states, a chance of a wrong look, one group for states
//! that predict the same of every look, and the next look by the information expected of it for its effort.
//!
//! # Not here
//! Timing to a degree (`timing`), uneven sparks (`evenness`).

mod answer;
mod fault;
mod look;
mod setup;
mod wiring;

pub use answer::{LeadAnswer, LeadGroup, LeadVerdict, NextLook, SETTLED, WeighedLead};
pub use fault::{LeadFault, LeadPriors, LeadState};
pub use look::{Look, LookAt, Points, Running};
pub use setup::{Delivery, LeadAssumption, LeadCheck, LeadError, MisreadChance};
