//! Where the valves open and close at the lash that was read.

use crate::quantity::{CrankAngle, Lash};
use crate::valve::CamEvent;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// Valve events at the lash that was read, what compression that leaves, and how both move with the lash.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct EventsReport {
    /// What came out, in words.
    pub verdict_text: String,
    /// Why it holds for now only, if it does.
    pub provisional: Option<String>,
    /// Each cylinder of which the lash of both valves is known.
    pub cylinders: Vec<EventsCylinderReport>,
    /// What more lash on every valve does; none where the ramp ends before it.
    pub more: Option<EventsMoveReport>,
    /// Where the intake closes on the mean of the cylinders, after bottom dead centre: what compression is
    /// expected by, unless the closing is stated; none if a lash lies beyond its ramp.
    pub intake_closes: Option<CrankAngle>,
    /// Its standard uncertainty, in degrees.
    pub intake_closes_u: Option<f64>,
    /// Cylinders that are not told, and why.
    pub not_told: Vec<String>,
}

/// A cylinder as it is, and as it is when what is out of band is set.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct EventsCylinderReport {
    /// The cylinder.
    pub name: String,
    /// At the lash that was read.
    pub now: EventsAtLashReport,
    /// With what is out of band at what the book sets; none if nothing is.
    pub set: Option<EventsAtLashReport>,
    /// How much more a compression gauge should show of it than of a cylinder with the mean closing, by its lash
    /// alone, in per cent; none without the compression ratio.
    pub compression_over_mean_percent: Option<f64>,
    /// As it is, in words.
    pub text: String,
    /// How that moves when it is set, in words.
    pub set_text: Option<String>,
}

/// The events at a lash.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct EventsAtLashReport {
    /// Lash of the intake valve, the middle of its reading.
    pub intake_lash: Option<Lash>,
    /// Of the exhaust valve.
    pub exhaust_lash: Option<Lash>,
    /// Intake opens, intake closes, exhaust opens, exhaust closes.
    pub events: Vec<EventAtLashReport>,
    /// Crank degrees for which both valves are open, negative if never: from.
    pub overlap_from: Option<CrankAngle>,
    /// To.
    pub overlap_to: Option<CrankAngle>,
    /// Volume at the closing of the intake over that at the top, if the ratio is stated.
    pub effective_ratio: Option<f64>,
    /// Its standard uncertainty by the lash.
    pub effective_ratio_u: Option<f64>,
}

/// An event at a lash, counted as a manual prints it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct EventAtLashReport {
    /// Which.
    pub event: CamEvent,
    /// As printed.
    pub printed: CrankAngle,
    /// From; none if only its other end is known, as the ramp ends under the lash.
    pub from: Option<CrankAngle>,
    /// To.
    pub to: Option<CrankAngle>,
    /// Standard uncertainty by the lash, in degrees.
    pub u: f64,
}

/// What more lash on every valve does.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct EventsMoveReport {
    /// So much more.
    pub lash: Lash,
    /// The intake closes so much earlier.
    pub intake_closes_earlier: CrankAngle,
    /// Both valves are open for so much less.
    pub overlap_less: CrankAngle,
    /// The effective ratio is so much higher, if the printed one is stated.
    pub effective_ratio_more: Option<f64>,
    /// A compression gauge shows so much more, in per cent.
    pub compression_more_percent: Option<f64>,
    /// All of that in words.
    pub text: String,
}
