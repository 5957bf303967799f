//! What is said of the engine.

use crate::engine::{CamRing, Rotation};
use crate::quantity::{CrankAngle, Cycle, CyclePosition, DistributorAngle, Length};
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// The engine as understood.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct EngineReport {
    /// Its number, if it is known.
    pub number: Option<u64>,
    /// Two- or four-stroke.
    pub cycle: Cycle,
    /// Cylinder labels in firing order.
    pub firing_order: Vec<String>,
    /// Crank degrees from each firing to the next.
    pub intervals: Vec<CrankAngle>,
    /// Where everything is as each cylinder fires, in firing order.
    pub firing: Vec<FiringReport>,
    /// On which side of the pulley's TDC mark `pulley_mark_mm` counts and what comes to the pointer, in
    /// words; nothing without a pulley.
    pub pulley_marks: Option<String>,
    /// Running direction and the end it is seen from.
    pub rotation: Rotation,
    /// How the cylinders are numbered.
    pub numbering: String,
    /// The pistons' dead centres; empty if no rods were described.
    pub dead_centres: Vec<DeadCentreReport>,
    /// The cam ring, found to agree with the firing order.
    pub cam_ring: Option<CamRingReport>,
}

/// Where everything is as one cylinder fires.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct FiringReport {
    /// Cylinder label.
    pub cylinder: String,
    /// Crank degrees from the firing of the first cylinder in the order to this one's.
    pub position: CyclePosition,
    /// The same to its piston's top dead centre at firing; another only where its rod is offset or a
    /// link rod.
    pub top: CyclePosition,
    /// The cylinder at overlap when this one fires; nothing if there is none, or in a two-stroke.
    pub companion: Option<String>,
    /// How far a distributor rotor has turned since the first cylinder fired.
    pub rotor: DistributorAngle,
    /// How far behind the TDC mark of the first cylinder, along the pulley's rim and against the running
    /// direction, the mark for this one's top dead centre is painted: the pointer stands over it there.
    /// In millimetres, 0 up to the rim's length; nothing without a pulley.
    pub pulley_mark_mm: Option<f64>,
}

/// The dead centres of one piston.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct DeadCentreReport {
    /// Cylinder label.
    pub cylinder: String,
    /// Crank degrees from the firing position of the first cylinder in the firing order to this
    /// piston's firing top dead centre.
    pub position: CyclePosition,
    /// How far the crank is, at top dead centre, past where the crankpin points along the bore.
    pub shift: CrankAngle,
    /// How far it is past the opposite line at bottom dead centre.
    pub bottom_shift: CrankAngle,
    /// The stroke.
    pub stroke: Length,
}

/// A cam ring that agrees with the firing order.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct CamRingReport {
    /// Lobes, speed and sense.
    pub ring: CamRing,
    /// The same in words.
    pub text: String,
}
