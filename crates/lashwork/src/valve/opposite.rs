//! The plan in which one valve of a cylinder tells where to set the other.
//!
//! # Method
//! Where a cylinder's exhaust valve begins to open its intake is set, and where its intake has just
//! closed its exhaust is set. The stops are found by watching the valves, so the plan needs neither
//! marks nor a window: it serves cams whose guards would leave nothing of the base circle. A valve's
//! margin is the turning from the stop to its own nearer event, without any guard.
//!
//! # Source
//! southeastrt.net, page 10825, and carcraft.com, 1404 ask anything: the rule. The margin is geometry.
//!
//! Uses `quantity` and `engine`.

use super::plan::{Method, Sign, StopPlan, Unreachable, Unreached, ValveCheck};
use super::sequence::{Draft, Place, same};
use super::{ValveId, ValveKind, ValveTrain, Window};
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
    /// // The intake opens at 340, 220 after the second stop, and closed at 600, 240 before it.
    /// assert_eq!(plan.stops[1].checks[0].margin.degrees(), 220.0);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn opposite_valve(
        &self,
        start: Option<CylinderIndex>,
        from: Option<CyclePosition>,
    ) -> StopPlan {
        let (intake, exhaust) = (ValveKind::Intake, ValveKind::Exhaust);
        let signs = [
            (exhaust, self.events().opens(exhaust), intake),
            (intake, self.events().closes(intake), exhaust),
        ];
        let mut places: Vec<Place> = Vec::new();
        let mut unreachable = Vec::new();
        for &cylinder in self.engine().order() {
            for (watched, phase, set) in signs {
                let at = self.engine().crank_at(cylinder, phase);
                let valves = (1..=self.count(set)).map(|number| ValveId {
                    cylinder,
                    kind: set,
                    number,
                });
                // The base circle without a guard.
                let rest = Window::of(set, self.events(), CrankAngle::ZERO);
                let margin = rest.ok().flatten().and_then(|w| w.margin(phase));
                let Some(margin) = margin else {
                    let why = Unreached::OffItsSeat;
                    unreachable.extend(valves.map(|valve| Unreachable { valve, why }));
                    continue;
                };
                let sign = Sign {
                    cylinder,
                    kind: watched,
                };
                let checks = valves.map(|valve| ValveCheck { valve, margin });
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
