//! In which order valves are come to when their shims are changed.
//!
//! # The question
//! A shim that goes from one valve to another must be out of the one first, and the crank is never turned
//! with a shim out. So a row of valves that hand shims on is worked from its head, which gets a new
//! one, and there is nothing to choose but the places. A ring has no head: where its valves have no
//! place in common, one of them gets a spare shim meanwhile, and any of them can be the one. Of all ways
//! without another spare the best turns the crank least; a spare more would be a valve opened
//! twice to save turning.
//!
//! # Method
//! - The arcs in which shims may be changed are cut into pieces in which the same cylinders are served;
//!   in the middle of what each set of cylinders has in common lies a place (`task`). Where the crank
//!   stands is one too, before it is turned.
//! - Turning forward from a place, each valve is come to at the first place that serves it after the valve
//!   whose shim it gets: no other way comes to it sooner. Groups do not hinder each other, as a stop
//!   may serve any number of valves. A ring begins with the valve that brings it to its end first. All
//!   places are tried as the first, and of the stops only those are kept without which there would be more
//!   turning (`order`).
//!
//! Uses `quantity` and `engine`.

mod order;
mod task;

use super::shim_place::ShimArc;
use super::{ValveId, ValveTrain};
use crate::quantity::{CrankAngle, CyclePosition};
use alloc::vec::Vec;
use order::least_turning;
use serde::Serialize;
use task::{jobs, places};

/// Valves that hand shims on: each after the first gets the shim of the one before.
#[derive(Clone, Debug, PartialEq)]
pub struct ShimGroup {
    /// The valves, in working order.
    pub valves: Vec<ValveId>,
    /// Whether the first gets the shim of the last.
    pub is_ring: bool,
}

/// What is done at a valve.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum ShimWork {
    /// Its shim is lifted out and the new one fitted.
    Exchange,
    /// Its shim is lifted out and a spare, thinner one put in while the crank is turned.
    PutSpareIn,
    /// The spare is taken out and the new shim fitted.
    TakeSpareOut,
}

/// A valve come to on the way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShimVisit {
    /// Which group, from 0.
    pub group: usize,
    /// Which valve of the group, from 0.
    pub member: usize,
    /// What is done.
    pub work: ShimWork,
    /// From the stop to the nearer end of the arc.
    pub margin: CrankAngle,
    /// Whether every valve of its cylinder is closed there.
    pub all_closed: bool,
}

/// A stop at which shims are changed.
#[derive(Clone, Debug, PartialEq)]
pub struct ShimStop {
    /// Crank degrees after firing TDC of the first cylinder in the firing order.
    pub position: CyclePosition,
    /// How far to turn forward from the stop before, or from where the crank stands.
    pub turn: CrankAngle,
    /// What is done there, in working order.
    pub visits: Vec<ShimVisit>,
}

/// The way from valve to valve.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ShimRoute {
    /// The stops, turning forward.
    pub stops: Vec<ShimStop>,
    /// Valves that can nowhere be changed so, as group and member.
    pub nowhere: Vec<(usize, usize)>,
}

impl ValveTrain<'_> {
    /// The way round all valves whose shims are changed, from where the crank stands if that is given.
    ///
    /// ```
    /// use lashwork::engine::Engine;
    /// use lashwork::quantity::CrankAngle;
    /// use lashwork::valve::{CamEvents, ShimGroup, ShimWork, ValveTrain};
    /// let engine = Engine::inline_four_stroke(&[1, 3, 4, 2]).unwrap();
    /// let d = |x| CrankAngle::from_degrees(x);
    /// let cam = CamEvents::new(d(28.0)?, d(60.0)?, d(60.0)?, d(28.0)?)?;
    /// let train = ValveTrain::new(&engine, &cam, d(20.0)?, 1, 1)?;
    /// let valves = train.valves();
    /// // The intakes of 1 and 4 change shims: they fire a turn apart and have no place in common.
    /// let ring = ShimGroup { valves: vec![valves[0], valves[6]], is_ring: true };
    /// let route = train.shim_route(&[ring], None);
    /// let works: Vec<ShimWork> =
    ///     route.stops.iter().flat_map(|s| &s.visits).map(|v| v.work).collect();
    /// assert_eq!(works, [ShimWork::PutSpareIn, ShimWork::Exchange, ShimWork::TakeSpareOut]);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn shim_route(&self, groups: &[ShimGroup], from: Option<CyclePosition>) -> ShimRoute {
        let arcs: Vec<Vec<Vec<ShimArc>>> = groups
            .iter()
            .map(|g| g.valves.iter().map(|v| self.shim_arcs(*v)).collect())
            .collect();
        let mut nowhere = Vec::new();
        for (group, members) in arcs.iter().enumerate() {
            let none = members.iter().enumerate().filter(|(_, a)| a.is_empty());
            nowhere.extend(none.map(|(member, _)| (group, member)));
        }
        let places = places(&arcs);
        let jobs = jobs(groups, &arcs, &places);
        let stops = least_turning(&jobs, places, from);
        ShimRoute { stops, nowhere }
    }
}
