//! Stop plans with their costs, and which one is recommended.

use crate::quantity::{CrankAngle, CyclePosition, DistributorAngle};
use crate::valve::{Method, Unreached, ValveKind};
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// Where to stop the crank.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct StopsReport {
    /// Where it can be stopped, in words.
    pub places: String,
    /// Stop plans, side by side.
    pub plans: Vec<PlanReport>,
    /// Kinds of plan that are not possible, and why.
    pub not_offered: Vec<NotOffered>,
    /// The plan to follow.
    pub recommended: Option<Recommendation>,
}

/// A stop of the crank.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct StopReport {
    /// Crank degrees after firing TDC of the first cylinder in the firing order.
    pub position: CyclePosition,
    /// Turn forward from the stop before, or from where the crank is now.
    pub turn: CrankAngle,
    /// The cylinder at firing TDC here.
    pub firing_tdc: Option<String>,
    /// The cylinder at overlap TDC here.
    pub overlap_tdc: Option<String>,
    /// The cylinder that was last at firing TDC, and the turning since.
    pub last_fired: LastFired,
    /// The label of the mark at the pointer, where stops are at marks.
    pub mark: Option<String>,
    /// What to watch for, where valves show that the stop is reached.
    pub watch: Vec<String>,
    /// Where the distributor rotor points, from its place at the first position.
    pub rotor: DistributorAngle,
    /// Distance along the pulley's rim from the TDC mark of the first cylinder, in millimetres,
    /// against the running direction.
    pub pulley_mark_mm: Option<f64>,
    /// Valves to check here, with the margin to the nearer edge of the window.
    pub check: Vec<CheckReport>,
}

/// The cylinder that was last at firing TDC.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct LastFired {
    /// Its label.
    pub cylinder: String,
    /// Crank degrees since.
    pub turn: CrankAngle,
}

/// A valve to check at a stop.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct CheckReport {
    /// The valve by name.
    pub valve: String,
    /// Cylinder label.
    pub cylinder: String,
    /// The side of the engine from which it is reached, if stated.
    pub side: Option<String>,
    /// Intake or exhaust.
    pub kind: ValveKind,
    /// Which of its kind, from 1.
    pub number: u8,
    /// Crank degrees to the nearer edge of its window.
    pub margin: CrankAngle,
}

/// A stop plan with its cost.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PlanReport {
    /// How the stops were chosen.
    pub method: Method,
    /// Where the crank is before the first turn, if the turning counts from there.
    pub from: Option<CyclePosition>,
    /// The stops.
    pub stops: Vec<StopReport>,
    /// Forward turning in all.
    pub total_turn: CrankAngle,
    /// Changes from one side of the engine to another.
    pub walks: usize,
    /// The least margin of any check.
    pub smallest_margin: Option<CrankAngle>,
    /// Valves that cannot be checked at any stop.
    pub unreachable: Vec<String>,
    /// Why, in the same order.
    pub unreachable_why: Vec<UnreachableReport>,
}

/// A valve that cannot be checked at any stop of a plan.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct UnreachableReport {
    /// The valve by name.
    pub valve: String,
    /// Why.
    pub why: Unreached,
    /// Why, in words.
    pub text: String,
}

/// A kind of plan that is not possible.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct NotOffered {
    /// How its stops would have been chosen.
    pub method: Method,
    /// A short name of the reason that never changes.
    pub code: String,
    /// The reason in words.
    pub text: String,
}

/// The recommended plan.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Recommendation {
    /// Its place in the list of plans.
    pub plan: usize,
    /// Why it was chosen.
    pub why: String,
}
