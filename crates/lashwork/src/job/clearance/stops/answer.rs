//! Stop plans with their costs, and which one is recommended.

use crate::quantity::{CrankAngle, CyclePosition, DistributorAngle};
use crate::valve::{MayBeOff, Method, Movement, Unreached, ValveKind};
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
    /// On which side of the pulley's TDC mark `pulley_mark_mm` counts and what comes to the pointer, in
    /// words; nothing without a pulley.
    pub pulley_marks: Option<String>,
    /// Stop plans, side by side.
    pub plans: Vec<PlanReport>,
    /// Kinds of plan that are not possible, and why.
    pub not_offered: Vec<NotOffered>,
    /// The plan to follow.
    pub recommended: Option<Recommendation>,
    /// Why no plan is recommended, in words.
    pub none_recommended: Option<String>,
}

/// A stop of the crank.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct StopReport {
    /// Crank degrees after firing TDC of the first cylinder in the firing order.
    pub position: CyclePosition,
    /// Turn forward from the stop before, or from where the crank is now.
    pub turn: CrankAngle,
    /// The cylinder at firing TDC here: both its valves are shut and slack.
    pub firing_tdc: Option<String>,
    /// The cylinder at overlap TDC here: its valves rock, the exhaust closing as the intake opens. Where
    /// one is at firing TDC it is that one's companion, and shows that the crank is not a turn out.
    pub overlap_tdc: Option<String>,
    /// The cylinder that was last at firing TDC, and the turning since.
    pub last_fired: LastFired,
    /// The label of the mark at the pointer, where stops are at marks.
    pub mark: Option<String>,
    /// What to watch for, where valves show that the stop is reached.
    pub watch: Vec<WatchReport>,
    /// Where the distributor rotor points, from its place at the first position.
    pub rotor: DistributorAngle,
    /// How far behind the TDC mark of the first cylinder, along the pulley's rim and against the running
    /// direction, the mark for this stop is painted: the pointer stands over it here. In millimetres, 0
    /// up to the rim's length.
    pub pulley_mark_mm: Option<f64>,
    /// Valves to check here.
    pub check: Vec<CheckReport>,
    /// How far off the crank may be, short of the stop and past it: the least of all checks on each side.
    pub may_be_off: MayBeOff,
    /// What valves show that the crank is there, as far as they do, and how far off it may be, in words.
    pub text: String,
}

/// A valve whose own movement shows that a stop is reached.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct WatchReport {
    /// Cylinder label.
    pub cylinder: String,
    /// Intake or exhaust.
    pub kind: ValveKind,
    /// What it does.
    pub movement: Movement,
    /// The same in words.
    pub text: String,
    /// The valves to check then, by name.
    pub check: Vec<String>,
}

/// The cylinder that was last at firing TDC.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct LastFired {
    /// Its label.
    pub cylinder: String,
    /// Crank degrees since.
    pub turn: CrankAngle,
}

/// A valve to check at a stop.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
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
    /// Crank degrees to both edges.
    pub may_be_off: MayBeOff,
}

/// A stop plan with its cost.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct PlanReport {
    /// How the stops were chosen.
    pub method: Method,
    /// Where the turning counts from: where the crank is, or firing TDC of the cylinder to start with.
    pub from: Option<CyclePosition>,
    /// The stops.
    pub stops: Vec<StopReport>,
    /// Forward turning in all.
    pub total_turn: CrankAngle,
    /// Changes from one side of the engine to another.
    pub walks: usize,
    /// The least margin of any check, counted alike in all plans: to where the guard begins.
    pub smallest_margin: Option<CrankAngle>,
    /// Valves that cannot be checked at any stop.
    pub unreachable: Vec<String>,
    /// Why, in the same order.
    pub unreachable_why: Vec<UnreachableReport>,
    /// Whether no plan of the method costs less; if not, stops and turning still are the least.
    pub exact: bool,
    /// What speaks against it; it is then recommended only if the book prescribes it.
    pub against: Vec<Against>,
}

/// A reason not to follow a plan.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct Against {
    /// A short name that never changes.
    pub code: String,
    /// The reason in words.
    pub text: String,
}

/// A valve that cannot be checked at any stop of a plan.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
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
#[non_exhaustive]
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
#[non_exhaustive]
pub struct Recommendation {
    /// Its place in the list of plans.
    pub plan: usize,
    /// Why it was chosen.
    pub why: String,
}
