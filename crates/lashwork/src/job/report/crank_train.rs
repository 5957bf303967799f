//! What crank, rods and cam ring come to.

use crate::engine::CamRing;
use crate::quantity::{CrankAngle, CyclePosition, Length};
use alloc::string::String;
use serde::Serialize;

/// Where one piston turns round.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct DeadCentreReport {
    /// Cylinder label.
    pub cylinder: String,
    /// Crank degrees from the firing position of the first cylinder in the firing order to this
    /// piston's firing top dead centre.
    pub position: CyclePosition,
    /// How far the crank stands, at top dead centre, past where the crankpin points along the bore.
    pub shift: CrankAngle,
    /// How far it stands past the opposite line at bottom dead centre.
    pub bottom_shift: CrankAngle,
    /// The stroke.
    pub stroke: Length,
}

/// A cam ring that goes with the firing order.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CamRingReport {
    /// Lobes, speed and sense.
    pub ring: CamRing,
    /// The same in words.
    pub text: String,
}
