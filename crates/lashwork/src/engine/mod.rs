//! Tier 1: the engine as a machine that turns: cylinders, firing order, crank geometry, finding
//! top dead centre.
//!
//! # Conventions
//! - Crank angles count in the running direction; position 0 is the firing top dead centre of the
//!   first cylinder in the order.
//! - A cylinder's own phase: 0 firing TDC, 180 bottom after power, 360 overlap TDC, 540 bottom
//!   after intake (four-stroke).
//! - Bank and crankpin angles ([`AxisAngle`](crate::quantity::AxisAngle)) count in the running
//!   direction too, from any common zero.
//! - Labels are the user's. Which end cylinder 1 is at, and which end rotation is seen from, is
//!   always stated ([`Numbering`], [`Rotation`]), because standards differ.
//!
//! # Questions
//! | question | answer |
//! |---|---|
//! | when does each cylinder fire? | [`Engine::firing_position`], [`Engine::intervals`] |
//! | where is a cylinder in its own cycle? | [`Engine::own_phase`] |
//! | which cylinder is at overlap when this one fires? | [`Engine::companion`] |
//! | which way is that from the other end? | [`Rotation::seen_from_end`], [`Numbering::convert`] |
//! | how far is the piston down? | [`SliderCrank`] |
//! | how far is the charge compressed that the intake shuts in? | [`CompressionRatio::effective`] |
//! | where are the dead centres of a link rod's cylinder? | [`ArticulatedRod`] |
//! | where does a piston of this engine really top? | [`Engine::dead_centre`], [`Engine::dead_centres`] |
//! | does this cam ring go with the row? | [`CamRing`], [`Engine::with_cam_ring`] |
//! | where is top dead centre on the wheel? | [`PistonStops`] |
//! | how long is that angle on the pulley's rim? | [`Pulley`] |
//!
//! # Not here
//! Valves and cam events (`valve`), which stops to make (`job`).
//!
//! # Method and sources
//! Geometry. A cylinder is at top dead centre when its crankpin points along its bank: after the
//! crank has turned by bank angle less crankpin angle, whole turns aside. An offset piston pin moves
//! that point ([`SliderCrank::tdc_angle`]); cam and ignition are timed from the true one. A link rod
//! moves it too, but cam and ignition keep their even spacing, so there the two differ.

mod articulated_rod;
mod assumption;
mod builder;
mod cam_ring;
mod compression_ratio;
mod cylinder;
#[expect(
    clippy::module_inception,
    reason = "one main type a file, named after it"
)]
mod engine;
mod error;
mod firing;
mod firing_check;
mod geometry;
pub mod layout;
mod link_rods;
mod pulley;
mod rotation;
mod rows;
mod slider_crank;
mod tdc;

pub use crate::quantity::PinOffset;
pub use articulated_rod::{ArticulatedRod, ArticulatedRodError};
pub use assumption::{ASSUMED_ROCKER_RATIO, EngineAssumption};
pub use builder::EngineBuilder;
pub use cam_ring::{CamRing, CamRingError, RingSense};
pub use compression_ratio::{CompressionRatio, CompressionRatioError};
pub use cylinder::{Cylinder, CylinderIndex, CylinderLabel};
pub use engine::Engine;
pub(crate) use engine::SAME_PLACE;
pub use error::EngineError;
pub use firing::{EngineParts, Intervals};
pub use link_rods::{DeadCentres, LinkRod, LinkRods, LinkRodsError};
pub use pulley::{Pulley, PulleyArc, PulleyError};
pub use rotation::{End, Numbering, Rotation, Sense};
pub use slider_crank::{SliderCrank, SliderCrankError};
pub use tdc::{PistonStops, TdcError, TdcEstimate};
