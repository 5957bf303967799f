//! The float: how high the fuel stands, and what that does at the jet.
//!
//! # Conventions
//! - A level is over a mark (a sight glass, the joint of the bowl); negative is under it.
//! - A denser fuel carries the float higher and shuts the needle at a lower level.
//! - Immersion is the immersed volume over the section of the float where the surface crosses it.
//!
//! # Questions
//! | question | answer |
//! |---|---|
//! | How deep does this float sit? | [`FloatBody::depth`] |
//! | How far does its tang move at the needle? | [`FloatBody::at_needle`] |
//! | How much lower does another fuel stand? | [`Immersion::level_change`] |
//! | Is the level within the book's marks? | [`Immersion::level_with`], `tolerance::judge` |
//! | What presses on the jet? | [`head_at_jet`] |
//! | From which depression does fuel come? | [`depression_to_lift`] |
//! | What does another fuel do through the same jets? | [`change_fuel`] |
//!
//! # Not here
//! Which jet makes up for it (`jets`).
//!
//! # Method
//! Archimedes; hydrostatics; fuel flows with the root of its density times the depression.

mod assumption;
mod error;
mod fuel_change;
mod head;
mod immersion;

pub use assumption::FloatAssumption;
pub use error::FloatError;
pub use fuel_change::{FuelChange, FuelInUse, change_fuel};
pub use head::{Nozzle, depression_to_lift, head_at_jet};
pub use immersion::{FloatBody, Immersion, immersed_ratio};
