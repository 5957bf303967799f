//! What an engine is made from, as the user states it; nothing here is checked yet.

use super::{Cylinder, CylinderLabel, Numbering, Rotation};
use crate::quantity::{CrankAngle, Cycle};
use alloc::vec::Vec;
use serde::Serialize;

/// How the firings are spaced.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Intervals {
    /// All alike: the cycle over the number of cylinders.
    Even,
    /// One for each cylinder in firing order: from its firing to the next; the last one leads back
    /// to the first cylinder. Their sum is the cycle.
    Listed(Vec<CrankAngle>),
    /// Worked out from the bank and crankpin angles of all cylinders.
    FromGeometry,
}

/// Everything [`Engine::new`](super::Engine::new) needs.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct EngineParts {
    /// Two-stroke or four-stroke.
    pub cycle: Cycle,
    /// The cylinders, in the order they are to be listed.
    pub cylinders: Vec<Cylinder>,
    /// The firing order, each cylinder once.
    pub order: Vec<CylinderLabel>,
    /// The spacing of the firings.
    pub intervals: Intervals,
    /// The running direction.
    pub rotation: Rotation,
    /// How cylinders are numbered.
    pub numbering: Numbering,
}
