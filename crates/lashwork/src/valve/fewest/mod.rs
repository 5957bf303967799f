//! The plan with the fewest stops, exactly.
//!
//! # The question
//! Every valve has an arc of the cycle, its window; all valves of one kind in one cylinder share it.
//! A plan is a set of findable places of which at least one lies in each arc. Of all plans the best
//! has the fewest stops; of those the largest least margin, where a valve counts with the stop that
//! serves it best, and margins past [`StopPlan::COMFORTABLE_MARGIN`] are equal; of those the least forward
//! turning; of those the fewest changes of side; of those the largest least margin, however large.
//! Amounts of turning within a hundredth of a degree count as equal. Going round a second time never
//! helps: the same places come again, and each can be stopped at in the first cycle.
//!
//! Why so: a crank that may be off by little is where a valve is read wrong; past an hour of the clock
//! nobody is off by chance, and a plan should not turn the crank once more to be safe twice over.
//!
//! # Method
//! - Places are numbered round the cycle, so that an arc is a run of whole numbers (`circle`).
//! - Largest least margin (`roomy`): with every arc shorter by some margin at both ends fewer places
//!   serve it, so the more margin the more stops. The largest margin that needs no more stops is one of
//!   finitely many, and halving their list finds it. All that follows is done with arcs that much
//!   shorter.
//! - Fewest stops and least turning (`stab`): each place in turn is taken as the first stop. The arcs
//!   it does not serve are then plain intervals, and going on to the last place before some unserved
//!   arc ends is the classic exact way to stab intervals with few points. The last stop of such a
//!   plan can be no earlier than the latest beginning of an unserved arc, and no plan needs it later.
//! - Fewest changes of side and largest margin (`walk`): a walk along the stops, place by place. What has
//!   happened bears on the rest by the side one stands on and, for each side, the first and the
//!   latest stop that served it. A way is dropped when another one to the same place has no more
//!   walks (one less, if it ends on another side) and no less margin, and no side first served later
//!   or last served earlier: whatever completes the one completes the other no worse. Each side that must still be
//!   served takes a walk, which bounds what a way can come to. An arc is
//!   judged where it matters: at the two successive stops of its side round its middle, of which the
//!   nearer serves it best.
//! - Any angle: the places are the edges of the windows, shortened as above. With two stops or more every plan of least
//!   turning begins where some window closes and ends where some window opens (else turning the
//!   first stop on, or the last one back, would save turning) and its other stops can be moved on to
//!   where a window of theirs closes without a change of stops, turning or changes of side. For the same
//!   reason no such plan has more margin than the arcs were shortened by. All stops that are free to move are then set to the middle of what their valves
//!   allow (`centre`). One stop that serves all is set to the middle of the widest arc they share.
//!
//! Uses `quantity` and `engine`.

mod centre;
mod circle;
mod roomy;
mod rounds;
mod stab;
mod state;
mod walk;

use super::plan::{Method, StopPlan, ValveCheck};
use super::sequence::{Draft, Place};
use super::{MayBeOff, StoppingPoints, ValveId, ValveTrain};
use crate::quantity::CyclePosition;
use alloc::vec::Vec;
use circle::Circle;
use state::Visit;

impl ValveTrain<'_> {
    /// The plan with the fewest stops among places that can be found; of equal ones that with the larger
    /// least margin, where more than [`StopPlan::COMFORTABLE_MARGIN`] counts as so much; then the least
    /// forward turning, the fewest changes of side, and the largest least margin. The turning counts
    /// from `from`, or from the first stop if the start is free.
    ///
    /// Stops, margin up to a comfortable one and turning are exact for every engine. Changes of side and
    /// margin beyond are the best that was found, and [`StopPlan::exact`] says no, over six sides and
    /// where the exact search would be too long, which no engine that was ever built comes near.
    ///
    /// ```
    /// use lashwork::engine::Engine;
    /// use lashwork::quantity::{CrankAngle, Cycle, CyclePosition};
    /// use lashwork::valve::{CamEvents, Mark, Marks, StoppingPoints, Unreached, ValveTrain};
    /// let engine = Engine::inline_four_stroke(&[1, 3, 4, 2]).unwrap();
    /// let guard = CrankAngle::from_degrees(20.0)?;
    /// let train = ValveTrain::new(&engine, &CamEvents::assumed(), guard, 1, 1)?;
    /// let plan = train.fewest_stops(&StoppingPoints::DeadCentres, None);
    /// assert_eq!((plan.stops.len(), plan.total_turn.degrees()), (2, 360.0));
    /// assert_eq!(plan.smallest_margin.unwrap().degrees(), 80.0);
    ///
    /// // With a guard of 150 no single mark serves every valve: the plan says which are left.
    /// let tdc = CyclePosition::new(Cycle::FourStroke, CrankAngle::ZERO);
    /// let mark = Mark::new("T", tdc, CrankAngle::ZERO)?;
    /// let marks = StoppingPoints::Marks(Marks::new(vec![mark]).unwrap());
    /// let narrow = CrankAngle::from_degrees(150.0)?;
    /// let train = ValveTrain::new(&engine, &CamEvents::assumed(), narrow, 1, 1)?;
    /// let plan = train.fewest_stops(&marks, None);
    /// assert!(!plan.unreachable.is_empty());
    /// assert_eq!(plan.unreachable[0].why, Unreached::NoPlaceInWindow);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn fewest_stops(&self, places: &StoppingPoints, from: Option<CyclePosition>) -> StopPlan {
        let any_angle = matches!(places, StoppingPoints::AnyAngle);
        let (circle, fewest) = roomy::roomiest(self, places, from);
        let Some(fewest) = fewest else {
            return self.in_sequence(draft(from, &[], &circle), circle.origin());
        };
        let (found, first, exact) = if any_angle && fewest.stops == 1 {
            let at = centre::one_stop(self, &circle, &fewest);
            (alloc::vec![self.serve_all(&circle, at)], at, true)
        } else {
            let (visits, exact) = walk::fewest_walks(&circle, &fewest, !any_angle);
            let mut found = self.serve(&circle, &visits);
            let first = visits
                .first()
                .map_or(circle.origin(), |v| circle.at(v.index));
            if any_angle {
                centre::set_to_the_middle(self, &mut found, from);
            }
            (found, first, exact)
        };
        let first = from.unwrap_or(first);
        StopPlan {
            exact,
            ..self.in_sequence(draft(from, &found, &circle), first)
        }
    }

    /// Gives every valve to the visit of its side that serves it best, the earlier of equal ones.
    fn serve(&self, circle: &Circle, visits: &[Visit]) -> Vec<Place> {
        let mut places: Vec<Place> = visits
            .iter()
            .map(|v| Place::new(circle.at(v.index)))
            .collect();
        for arc in &circle.arcs {
            let mut best: Option<(usize, f64)> = None;
            for (stop, visit) in visits.iter().enumerate() {
                let margin = arc.margin(visit.index);
                let known = best.map_or(-1.0, |(_, known)| known);
                if visit.serves(arc.side) && margin > known {
                    best = Some((stop, margin));
                }
            }
            if let Some(place) = best.and_then(|(stop, _)| places.get_mut(stop)) {
                place.checks.extend(self.checks(arc.of, place.at));
            }
        }
        places
    }

    /// One place that serves every arc.
    fn serve_all(&self, circle: &Circle, at: CyclePosition) -> Place {
        let mut place = Place::new(at);
        for arc in &circle.arcs {
            place.checks.extend(self.checks(arc.of, at));
        }
        place
    }

    /// All valves of one kind in a cylinder, which share a window.
    fn checks(&self, first: ValveId, at: CyclePosition) -> impl Iterator<Item = ValveCheck> {
        let room = self.room(first, at).unwrap_or(MayBeOff::NONE);
        self.all_of(first.cylinder, first.kind)
            .map(move |valve| ValveCheck::new(valve, room))
    }
}

fn draft<'d>(from: Option<CyclePosition>, places: &'d [Place], circle: &'d Circle) -> Draft<'d> {
    Draft {
        method: Method::FewestStops,
        from,
        places,
        unreachable: &circle.unreachable,
    }
}
