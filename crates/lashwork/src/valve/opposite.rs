//! The plan in which one valve of a cylinder tells where to set the other.
//!
//! # Method
//! Where a cylinder's exhaust valve begins to open its intake is set, and where its intake has just
//! closed its exhaust is set. The stops are found by watching the valves, so the plan needs neither
//! marks nor a window: it serves cams whose guards would leave nothing of the base circle. A valve's
//! margin is counted as everywhere, to where its guard begins, and is nothing where the guard leaves
//! nothing. What is watched may move earlier, or come to rest later, than its printed event by as much
//! as its events are early at the running lash; the margin is less by that.
//!
//! # Source
//! southeastrt.net, page 10825, and carcraft.com, 1404 ask anything: the rule. The margin is geometry.
//!
//! Uses `quantity` and `engine`.

use super::plan::{Method, Movement, Sign, StopPlan, Unreachable, Unreached, ValveCheck};
use super::sequence::{Draft, Place, same};
use super::{ValveKind, ValveTrain};
use crate::engine::CylinderIndex;
use crate::quantity::{CrankAngle, CyclePosition};
use alloc::vec::Vec;

impl ValveTrain<'_> {
    /// Every intake at its cylinder's exhaust opening, every exhaust at its intake closing; stops
    /// that coincide are one. `start` fixes the first cylinder, `from` where the crank stands.
    ///
    /// ```
    /// use lashwork::engine::Engine;
    /// use lashwork::quantity::CrankAngle;
    /// use lashwork::valve::{CamEvents, ValveTrain};
    /// let engine = Engine::inline_four_stroke(&[1]).unwrap();
    /// let d = |x| CrankAngle::from_degrees(x);
    /// // Exhaust opens at 120 after firing TDC, intake closes at 600.
    /// let cam = CamEvents::new(d(20.0)?, d(60.0)?, d(60.0)?, d(20.0)?)?;
    /// let train = ValveTrain::new(&engine, &cam, d(20.0)?, 1, 1)?;
    /// let plan = train.opposite_valve(None, None);
    /// let at: Vec<f64> = plan.stops.iter().map(|s| s.position.degrees()).collect();
    /// assert_eq!(at, [600.0, 120.0]);
    /// // The intake opens at 340, 220 after the second stop, and closed at 600, 240 before it; the
    /// // guard takes 20 of both.
    /// assert_eq!(plan.stops[1].checks[0].margin.degrees(), 200.0);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn opposite_valve(
        &self,
        start: Option<CylinderIndex>,
        from: Option<CyclePosition>,
    ) -> StopPlan {
        let (intake, exhaust) = (ValveKind::Intake, ValveKind::Exhaust);
        let (opens, closed) = (Movement::BeginsToOpen, Movement::HasJustClosed);
        let events = self.events();
        let none = CrankAngle::ZERO;
        let rules = [
            (exhaust, opens, intake, (events.early(exhaust), none)),
            (intake, closed, exhaust, (none, events.early(intake))),
        ];
        let mut places: Vec<Place> = Vec::new();
        let mut unreachable = Vec::new();
        for &cylinder in self.engine().order() {
            for (kind, movement, set, (before, after)) in rules {
                let phase = match movement {
                    Movement::BeginsToOpen => events.opens(kind),
                    _ => events.closes(kind),
                };
                let at = self.engine().crank_at(cylinder, phase);
                let valves = self.all_of(cylinder, set);
                let Some(room) = self.room_at_rest(set, phase) else {
                    let why = Unreached::OffItsSeat;
                    unreachable.extend(valves.map(|valve| Unreachable { valve, why }));
                    continue;
                };
                let sign = Sign {
                    cylinder,
                    kind,
                    movement,
                    sets: cylinder,
                    sets_kind: set,
                };
                let room = room.less(before, after);
                let checks = valves.map(|valve| ValveCheck::new(valve, room));
                if let Some(place) = places.iter_mut().find(|p| same(p.at, at)) {
                    place.signs.push(sign);
                    place.checks.extend(checks);
                } else {
                    let mut place = Place::new(at);
                    place.signs.push(sign);
                    place.checks.extend(checks);
                    places.push(place);
                }
            }
        }
        let draft = Draft {
            method: Method::OppositeValve,
            from,
            places: &places,
            unreachable: &unreachable,
        };
        self.best_turn(draft, start)
    }
}
