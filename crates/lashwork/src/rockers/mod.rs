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
mod check;
mod crank_slip;
mod tally;

pub(crate) use answer::each_once;
pub use answer::{CREDIBLE, Group, NextLook, PhaseEvidence, PhaseVerdict, SETTLED};
pub use arcs::PositionArc;
pub use check::{
    AssumedPosition, CrankCheck, EvidenceError, Feel, MisreadRisk, RockerCheck, RockerState,
    Rockers,
};
pub use crank_slip::{CrankSlip, Hypothesis};
