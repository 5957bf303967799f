//! What the question of the gas tells the one of the idle.

use crate::mixture::idle::Side;

/// Where gas that was read at idle, and does not contradict itself, wants the mixture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum OfIdle {
    /// Where it is.
    InBand,
    /// Further to this side.
    Toward(Side),
}
