//! Tier 1: from a change of gap to a turn of the screw or another shim.
//!
//! # Conventions
//! - A change of gap is wanted minus now; positive opens.
//! - A screw is turned in (clockwise, right-hand thread) or out, named from the screwdriver's end.
//! - A rocker ratio is valve movement over cam-side movement.
//! - Shim sizes are exact to the nanometre.
//!
//! # Not here
//! What the gap should be and whether it is good (`tolerance`), how it was felt (`feeler`).
//!
//! This module uses only `quantity`.

mod error;
mod screw;
mod series;
mod shim;

pub use error::AdjustError;
pub use screw::{ScrewSeat, ScrewTurn, Thread, TurnDirection, screw_turn};
pub use series::{ShimChoice, ShimRounding, ShimSeries};
pub use shim::{ShimFit, ShimSeat, new_shim, predicted_lash};
