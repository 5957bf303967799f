//! Leak-down as an area: how large the hole is through which a cylinder leaks, whatever tester was used.
//!
//! # Conventions
//! - Pressures on a tester are gauge pressures; the flow is worked out above nothing.
//! - A percentage is that of one tester: supply and orifice make it. What is compared, and kept, is the area.
//! - The piston is held at top dead centre of its compression stroke: the air turns the crank otherwise.
//!
//! # Questions
//! | question | answer |
//! |---|---|
//! | How large is the leak? | [`Tester::leak`] |
//! | What would another tester show of it? | [`Tester::would_show`] |
//! | What is this tester's own orifice? | [`Tester::by_master`] |
//! | Is it within a printed rule? | [`LeakRule`] |
//! | What leaks, by where it hisses? | [`Hiss`] |
//! | How hard does the air turn the crank? | [`turning_torque`] |
//! | A whole engine? | [`LeakTest`] |
//! | Many readings, from columns of plain numbers? | [`leak_columns`] |
//!
//! # Method
//! Two restrictions in series: the tester's orifice and the leak pass one mass of air. Each is taken as
//! isentropic, choked where the pressure behind it is under 0.528 of that before it; air cools to that of the
//! place between them.
//!
//! # Source
//! De Saint-Venant and Wantzel's formula, in the form of ISO 9300 for the choked case; orifices and the rule of 60
//! over 80 psi: FAA AC 43.13-1B.
//!
//! # Not here
//! What cranking compression says (`compression`).

mod assumption;
mod columns;
mod error;
mod flow;
mod hiss;
mod rule;
mod test;
mod tester;
mod turning;

pub use assumption::LeakAssumption;
pub use columns::{LeakColumns, LeakRow, leak_columns};
pub use error::LeakError;
pub use flow::{CHOKED_BELOW, flow_function};
pub use hiss::{Hiss, LeakPath};
pub use rule::{LeakRule, RuleBy};
pub use test::{CylinderLeak, LeakAnswer, LeakReading, LeakTest};
pub use tester::{Leak, Tester};
pub use turning::turning_torque;
