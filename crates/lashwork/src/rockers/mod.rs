//! Tier 3: what free and tight rockers say about where the crank stands.
//!
//! # Conventions
//! Positions, phases and windows as in `valve`.
//!
//! # Not here
//! Where to stop the crank (`valve`), what the readings say together (`diagnosis`).
//!
//! Uses `quantity`, `engine` and `valve`.

mod answer;
mod arcs;
mod cause;
mod check;
mod tally;

pub use answer::{CREDIBLE, Group, NextLook, PhaseEvidence, PhaseVerdict, SETTLED};
pub use arcs::PositionArc;
pub use cause::{Cause, Hypothesis};
pub use check::{Believed, Call, CrankCheck, EvidenceError, Look, RockerState, Rockers, WrongCall};
