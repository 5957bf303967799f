//! What the report says about the lock nut.

use crate::quantity::{Lash, LashChange};
use alloc::string::String;
use serde::Serialize;

/// What was learned of the lock nut.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LockingReport {
    /// Pairs it was learned from.
    pub pairs: usize,
    /// Mean shift, positive where locking opens the gap; nothing without pairs.
    pub mean: Option<LashChange>,
    /// Standard deviation of the shifts as felt, in millimetres; nothing below two pairs.
    pub spread_mm: Option<f64>,
    /// Half the width round the mean that holds the next shift with 95 %, in millimetres; nothing
    /// below two pairs.
    pub half_width_95_mm: Option<f64>,
    /// Standard uncertainty of one gap as felt, in millimetres.
    pub gap_uncertainty_mm: f64,
    /// The finding in words.
    pub text: String,
}

/// What to feel with the screw set and the lock nut still loose.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BeforeLocking {
    /// What the leaves should feel, at the present temperature.
    pub feel: Lash,
    /// The stack of leaves that comes nearest to it.
    pub stack: Option<String>,
    /// What locking then does to the gap.
    pub shift: LashChange,
}
