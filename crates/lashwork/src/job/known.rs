//! What every section of a job knows of the engine.

use super::machine::FiredBy;
use super::units::{Shown, Units};
use crate::engine::{Engine, Pulley};

/// What every section of a job knows of the engine.
#[derive(Clone, Copy)]
pub(super) struct Known<'r> {
    pub(super) engine: &'r Engine,
    pub(super) number: Option<u64>,
    pub(super) pulley: Option<Pulley>,
    pub(super) fired_by: Option<FiredBy>,
    /// The units that are asked for.
    pub(super) units: Units,
    /// Those of what belongs to no single reading.
    pub(super) shown: Shown,
    /// Why the valve clearances do not stand whatever they read, if the head's bolts take them back.
    pub(super) valves_back: Option<&'r str>,
}
