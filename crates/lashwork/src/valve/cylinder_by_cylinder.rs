//! The plan that takes each cylinder at its own firing TDC.
//!
//! # Method
//! Each cylinder's firing TDC in firing order, where both its valves rest on the base circle; a
//! valve whose window misses that point gets a stop at its window's middle. Of all places to start,
//! the one with the fewest changes of side wins, then the least turning, then the one nearest
//! the head of the firing order.
//!
//! Uses `quantity` and `engine`.

use super::plan::{Method, StopPlan, Unreachable, Unreached, ValveCheck};
use super::sequence::{Draft, Place, same};
use super::{MayBeOff, ValveTrain};
use crate::engine::CylinderIndex;
use crate::quantity::CyclePosition;
use alloc::vec::Vec;

impl ValveTrain<'_> {
    /// Each cylinder at its firing TDC in firing order. `start` fixes the first cylinder: the plan
    /// begins at the first stop from its firing TDC on at which one of its valves is checked.
    /// Without it the start that saves changes of side is chosen.
    #[must_use]
    pub fn cylinder_by_cylinder(&self, start: Option<CylinderIndex>) -> StopPlan {
        self.cylinder_by_cylinder_from(start, None)
    }

    /// The same with the turning counted from where the crank stands.
    #[must_use]
    pub fn cylinder_by_cylinder_from(
        &self,
        start: Option<CylinderIndex>,
        from: Option<CyclePosition>,
    ) -> StopPlan {
        let mut places: Vec<Place> = Vec::new();
        let mut unreachable = Vec::new();
        let valves = self.valves();
        let engine = self.engine();
        for &cylinder in engine.order() {
            let tdc = engine.dead_centre(cylinder);
            for &valve in valves.iter().filter(|v| v.cylinder == cylinder) {
                let Some(window) = self.window(valve.kind) else {
                    let why = Unreached::NoWindow;
                    unreachable.push(Unreachable { valve, why });
                    continue;
                };
                let at = match window.margin(engine.own_phase(cylinder, tdc)) {
                    Some(_) => tdc,
                    None => engine.crank_at(cylinder, window.middle()),
                };
                let met = places.iter_mut().find_map(|place| {
                    let check = self.check(valve, place.at).filter(|_| same(place.at, at))?;
                    Some((check, place))
                });
                if let Some((check, place)) = met {
                    place.checks.push(check);
                } else {
                    let mut place = Place::new(at);
                    let room = self.room(valve, at).unwrap_or(MayBeOff::NONE);
                    place.checks.push(ValveCheck::new(valve, room));
                    places.push(place);
                }
            }
        }
        let draft = Draft {
            method: Method::CylinderByCylinder,
            from,
            places: &places,
            unreachable: &unreachable,
        };
        self.best_turn(draft, start)
    }
}
