//! The plan in which a valve that is fully open tells which other one to check.
//!
//! # Method
//! A valve is in the middle of its base circle half a turn of the cam, a whole turn of the crank, from
//! where it is fully open. So while one valve is fully open, the same kind of valve in the cylinder that
//! fires a turn away is as far from its lobe as it can be: no mark is needed and no event, only the
//! firing order. Where no cylinder fires a turn away the one nearest to it is watched, and where that
//! is not well inside, on engines of one or two cylinders, a valve of the other kind.
//!
//! # Source
//! Geometry of rotation. Printed for engines of four and six cylinders; the tests name where.
//!
//! Uses `quantity` and `engine`.

use super::plan::{Method, Movement, Sign, StopPlan, Unreachable, Unreached, ValveCheck};
use super::sequence::{Draft, Place};
use super::{MayBeOff, ValveKind, ValveTrain};
use crate::engine::{CylinderIndex, SAME_PLACE};
use crate::quantity::{CrankAngle, CyclePosition};
use alloc::vec::Vec;

/// Well inside the window, in crank degrees to its nearer edge: the top of a lift is seen no better than
/// a mark.
const WELL_INSIDE: f64 = StopPlan::COMFORTABLE_MARGIN.degrees();

/// A valve that may be watched.
#[derive(Clone, Copy)]
struct Watched {
    cylinder: CylinderIndex,
    kind: ValveKind,
    at: CyclePosition,
    /// From the middle of the base circle of the valve that is checked.
    off: f64,
}

impl ValveTrain<'_> {
    /// Every valve while another one is fully open, one valve of a kind in a cylinder a stop. `start`
    /// fixes the first cylinder that is checked, `from` where the crank stands.
    ///
    /// ```
    /// use lashwork::engine::Engine;
    /// use lashwork::quantity::CrankAngle;
    /// use lashwork::valve::{CamEvents, ValveTrain};
    /// let engine = Engine::inline_four_stroke(&[1, 3, 4, 2]).unwrap();
    /// let guard = CrankAngle::from_degrees(20.0)?;
    /// let train = ValveTrain::new(&engine, &CamEvents::assumed(), guard, 1, 1)?;
    /// let plan = train.fully_open_valve(None, None);
    /// assert_eq!(plan.stops.len(), 8);
    /// for stop in &plan.stops {
    ///     // The cylinder watched fires a turn away from the one checked.
    ///     assert_eq!(engine.companion(stop.signs[0].cylinder), Some(stop.signs[0].sets));
    ///     // 420 degrees of base circle, less a guard of 20 at both ends.
    ///     assert_eq!(stop.checks[0].margin.degrees(), 190.0);
    /// }
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn fully_open_valve(
        &self,
        start: Option<CylinderIndex>,
        from: Option<CyclePosition>,
    ) -> StopPlan {
        let mut places: Vec<Place> = Vec::new();
        let mut unreachable = Vec::new();
        for &cylinder in self.engine().order() {
            for kind in [ValveKind::Intake, ValveKind::Exhaust] {
                let valves = self.all_of(cylinder, kind);
                let Some((watched, room)) = self.watched_for(cylinder, kind) else {
                    let why = Unreached::NoCompanion;
                    unreachable.extend(valves.map(|valve| Unreachable { valve, why }));
                    continue;
                };
                let mut place = Place::new(watched.at);
                place.signs.push(Sign {
                    cylinder: watched.cylinder,
                    kind: watched.kind,
                    movement: Movement::FullyOpen,
                    sets: cylinder,
                    sets_kind: kind,
                });
                let checks = valves.map(|valve| ValveCheck::new(valve, room));
                place.checks.extend(checks);
                places.push(place);
            }
        }
        let draft = Draft {
            method: Method::FullyOpenValve,
            from,
            places: &places,
            unreachable: &unreachable,
        };
        self.best_turn(draft, start)
    }

    /// The valve to watch for a kind of valve in a cylinder, and the room there.
    fn watched_for(&self, of: CylinderIndex, kind: ValveKind) -> Option<(Watched, MayBeOff)> {
        let others = [ValveKind::Intake, ValveKind::Exhaust];
        let other = others.into_iter().find(|k| *k != kind)?;
        [kind, other].into_iter().find_map(|watched| {
            let nearest = self.nearest_open(of, kind, watched)?;
            let phase = self.engine().own_phase(of, nearest.at);
            let room = self.room_at_rest(kind, phase)?;
            (room.nearer().degrees() >= WELL_INSIDE).then_some((nearest, room))
        })
    }

    /// Of the valves of a kind the one that is fully open nearest to the middle of a valve's base circle;
    /// of equal ones the first in the firing order.
    fn nearest_open(
        &self,
        of: CylinderIndex,
        kind: ValveKind,
        watched: ValveKind,
    ) -> Option<Watched> {
        let engine = self.engine();
        let middle = self.events().fully_open(kind).turned(CrankAngle::TURN);
        let middle = engine.crank_at(of, middle);
        let mut best: Option<Watched> = None;
        for &cylinder in engine.order() {
            if cylinder == of && watched == kind {
                continue;
            }
            let at = engine.crank_at(cylinder, self.events().fully_open(watched));
            let off = middle.forward_to(at).degrees();
            let off = off.min(at.forward_to(middle).degrees());
            if best.is_none_or(|b| off < b.off - SAME_PLACE) {
                best = Some(Watched {
                    cylinder,
                    kind: watched,
                    at,
                    off,
                });
            }
        }
        best
    }
}
