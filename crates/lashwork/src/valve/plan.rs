//! What a stop plan is: the stops, what to check at each, and what it costs.
//!
//! Uses `quantity` and `engine`.

use super::{MayBeOff, ValveId, ValveKind};
use crate::engine::CylinderIndex;
use crate::quantity::{CrankAngle, CyclePosition};
use alloc::vec::Vec;
use serde::Serialize;

/// How a plan chooses its stops.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Method {
    /// Each cylinder at its own firing TDC, in firing order.
    CylinderByCylinder,
    /// Two positions one crank turn apart.
    TwoPosition,
    /// As few stops as the places that can be found allow.
    FewestStops,
    /// Each cylinder's intake where its exhaust begins to open, its exhaust where its intake has
    /// just closed.
    OppositeValve,
    /// Each valve while another one is fully open: the same kind in the cylinder that fires a turn
    /// away.
    FullyOpenValve,
}

/// A valve to check at a stop.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ValveCheck {
    /// The valve.
    pub valve: ValveId,
    /// Crank degrees from the stop to the nearer edge of the valve's window.
    pub margin: CrankAngle,
    /// Crank degrees to both edges.
    pub may_be_off: MayBeOff,
}

impl ValveCheck {
    pub(super) fn new(valve: ValveId, may_be_off: MayBeOff) -> Self {
        Self {
            valve,
            margin: may_be_off.nearer(),
            may_be_off,
        }
    }
}

/// What a valve is seen to do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Movement {
    /// It begins to open.
    BeginsToOpen,
    /// It has just closed.
    HasJustClosed,
    /// It is fully open.
    FullyOpen,
}

/// A valve whose own movement shows that the stop is reached.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Sign {
    /// Its cylinder.
    pub cylinder: CylinderIndex,
    /// Intake or exhaust.
    pub kind: ValveKind,
    /// What it is seen to do.
    pub movement: Movement,
    /// The cylinder whose valves are checked then.
    pub sets: CylinderIndex,
    /// The kind of those valves.
    pub sets_kind: ValveKind,
}

/// A crank position and what to check there.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Stop {
    /// Crank degrees after firing TDC of the first cylinder in the firing order.
    pub position: CyclePosition,
    /// How far to turn forward from the stop before, or from where the crank stands; from nothing
    /// at the first stop of a plan that begins there.
    pub turn: CrankAngle,
    /// The cylinder at firing TDC here, if one is.
    pub firing_tdc: Option<CylinderIndex>,
    /// The cylinder at overlap TDC here, if one is.
    pub overlap_tdc: Option<CylinderIndex>,
    /// The valves to watch, where the method finds its stops by them.
    pub signs: Vec<Sign>,
    /// What to check here, in the order that saves changes of side.
    pub checks: Vec<ValveCheck>,
    /// How far off the stop the crank may be: the least of all checks, on each side.
    pub may_be_off: MayBeOff,
}

/// Why no stop of a plan serves a valve.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Unreached {
    /// Lift and guards leave nothing of the base circle.
    NoWindow,
    /// None of the places that can be found lies in its window.
    NoPlaceInWindow,
    /// Where the opposite valve would have it set, it is itself off its seat.
    OffItsSeat,
    /// No valve is fully open while it is well inside its base circle.
    NoCompanion,
}

impl Unreached {
    /// The reason in words.
    ///
    /// ```
    /// use lashwork::valve::Unreached;
    /// assert!(Unreached::NoWindow.words().contains("base circle"));
    /// ```
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::NoWindow => "lift and guard leave nothing of the base circle",
            Self::NoPlaceInWindow => "no position that can be found lies in its check window",
            Self::OffItsSeat => "it is off its seat at the stop this method gives it",
            Self::NoCompanion => "no other valve is fully open well inside its base circle",
        }
    }
}

/// A valve that no stop of a plan serves.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Unreachable {
    /// The valve.
    pub valve: ValveId,
    /// Why.
    pub why: Unreached,
}

/// A list of stops that covers every valve that can be covered.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StopPlan {
    /// How the stops were chosen.
    pub method: Method,
    /// Where the crank is before the first turn, if that is given.
    pub from: Option<CyclePosition>,
    /// The stops, in the order in which the crank reaches them, always turning forward.
    pub stops: Vec<Stop>,
    /// Forward turning to the last stop: from [`StopPlan::from`], or from the first stop.
    pub total_turn: CrankAngle,
    /// Changes from one side of the engine to another.
    pub walks: usize,
    /// The least margin of any check; none if nothing is checked.
    pub smallest_margin: Option<CrankAngle>,
    /// Valves no stop serves.
    pub unreachable: Vec<Unreachable>,
    /// Whether no plan of the method costs less. The fewest stops are exact in stops, margin up to a
    /// comfortable one and turning always; in changes of side, and in margin beyond that, they are not if
    /// the search for them would have been too long.
    pub exact: bool,
}

impl StopPlan {
    /// The least margin with which a plan is recommended, in crank degrees: what a mark set by eye, a
    /// worn chain or a turn too far may come to. This library's choice.
    ///
    /// ```
    /// use lashwork::valve::StopPlan;
    /// assert_eq!(StopPlan::LEAST_MARGIN.degrees(), 15.0);
    /// ```
    pub const LEAST_MARGIN: CrankAngle = CrankAngle::of_degrees::<15>();

    /// The margin past which more is of no use, in crank degrees: twice [`StopPlan::LEAST_MARGIN`], one
    /// hour of a clock. Among the plans with the fewest stops those that leave at least so much are equal,
    /// and the turning decides between them. This library's choice.
    ///
    /// ```
    /// use lashwork::valve::StopPlan;
    /// assert_eq!(StopPlan::COMFORTABLE_MARGIN.degrees(), 30.0);
    /// ```
    pub const COMFORTABLE_MARGIN: CrankAngle = CrankAngle::of_degrees::<30>();
}
