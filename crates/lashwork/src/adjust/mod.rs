//! Tier 2: from a change of gap to a turn of the screw or another shim.
//!
//! # Conventions
//! - A change of gap is wanted minus now; positive opens.
//! - A screw is turned in (clockwise, right-hand thread) or out, named from the screwdriver's end.
//! - A rocker ratio is valve movement over cam-side movement.
//! - Shim sizes are exact to the nanometre.
//! - A shim is chosen by what the rule says of the lash it leaves, not by the best estimate alone.
//! - Which shim goes where is one exact search over all valves, not one valve after the other.
//!
//! # Not here
//! Whether a gap is good, with its uncertainty (`tolerance`), how it was felt (`feeler`).
//!
//! This module uses only `quantity` and `tolerance`.

mod adjuster;
mod assign;
mod error;
mod locking;
mod outcome;
mod screw;
mod series;
mod shim;
mod stock;
mod swap;

pub use adjuster::{Adjuster, ShimRules, SwapScope, UsedShims};
pub use error::AdjustError;
pub use locking::{LockNut, LockingPair};
pub use outcome::{
    DOUBTFUL_BELOW, JudgedSize, RISK_STEPS, ShimOutcome, ShimSlot, ShimSupply, SizeToBuy,
    size_to_buy,
};
pub use screw::{ScrewSeat, ScrewTurn, Thread, TurnDirection, TurnRoom, screw_turn};
pub use series::{ShimChoice, ShimRounding, ShimSeries};
pub use shim::{ShimFit, ShimSeat, gap_per_shim, new_shim, predicted_lash};
pub use stock::{ShimStock, StockError, StockShim};
pub use swap::{MAX_SLOTS, ShimPlacement, ShimSource, best_swaps, working_order};
