//! Places put in the order in which a forward-turning crank reaches them, with the fewest changes of side
//! that the checks at each place allow.
//!
//! # Method
//! Within a stop the side one stands on comes first, whatever follows; which side comes last is
//! free, and decides whether the next stop begins with a walk. The walks still to come, for each
//! side one may arrive from, are counted from the last stop back to the first; going forward again,
//! each stop ends on a side with the least count. That is exact: all that happened before a stop
//! bears on the rest only by the side one stands on.
//!
//! Uses `quantity` and `engine`.

use super::plan::{Method, Sign, Stop, StopPlan, Unreachable, ValveCheck};
use super::{MayBeOff, ValveId, ValveTrain};
use crate::engine::{CylinderIndex, SAME_PLACE};
use crate::quantity::{CrankAngle, CyclePosition};
use alloc::vec::Vec;

/// Whether two places are one stop, also when the cycle ends between them. Amounts of turning no
/// farther apart than [`SAME_PLACE`] count as equal, too.
pub(super) fn same(a: CyclePosition, b: CyclePosition) -> bool {
    let apart = a.forward_to(b).degrees().min(b.forward_to(a).degrees());
    apart <= SAME_PLACE
}

/// A place and what is checked there, not yet in any order.
#[derive(Clone, Debug)]
pub(super) struct Place {
    pub(super) at: CyclePosition,
    pub(super) signs: Vec<Sign>,
    pub(super) checks: Vec<ValveCheck>,
}

impl Place {
    pub(super) const fn new(at: CyclePosition) -> Self {
        Self {
            at,
            signs: Vec::new(),
            checks: Vec::new(),
        }
    }
}

/// What a plan is made of before it is put in order.
#[derive(Clone, Copy)]
pub(super) struct Draft<'d> {
    pub(super) method: Method,
    /// Where the crank stands, if that is given.
    pub(super) from: Option<CyclePosition>,
    pub(super) places: &'d [Place],
    pub(super) unreachable: &'d [Unreachable],
}

impl ValveTrain<'_> {
    /// The plan of a draft that begins with the place reached first from `first` on.
    pub(super) fn in_sequence(&self, draft: Draft<'_>, first: CyclePosition) -> StopPlan {
        let mut reached: Vec<_> = draft
            .places
            .iter()
            .map(|place| {
                let ahead = first.forward_to(place.at);
                // A hair's breadth behind is here, not a whole cycle away.
                let is_here = same(first, place.at) && ahead > CrankAngle::TURN;
                let cycle = CrankAngle::computed(first.cycle().degrees());
                (if is_here { ahead - cycle } else { ahead }, place)
            })
            .collect();
        reached.sort_by(|a, b| a.0.degrees().total_cmp(&b.0.degrees()));
        let sides: Vec<Vec<&str>> = reached
            .iter()
            .map(|(_, place)| in_order(place.checks.iter().filter_map(|c| self.side(c.valve))))
            .collect();
        let visits = visits(&sides);
        let mut stops: Vec<Stop> = Vec::new();
        let (mut before, mut walks, mut side) = (CrankAngle::ZERO, 0, None);
        for ((ahead, place), visit) in reached.into_iter().zip(visits) {
            let rank = |valve: ValveId| {
                let side = self.side(valve);
                side.and_then(|s| visit.iter().position(|v| *v == s))
            };
            let mut checks = place.checks.clone();
            // A cylinder without a side is reached from any: its valves come first.
            checks.sort_by_key(|c| (rank(c.valve), c.valve));
            for at in visit {
                walks += usize::from(side.is_some_and(|s| s != at));
                side = Some(at);
            }
            let turn = match (stops.is_empty(), draft.from) {
                (false, _) => ahead - before,
                (true, Some(from)) if !same(from, place.at) => from.forward_to(place.at),
                (true, _) => CrankAngle::ZERO,
            };
            before = ahead;
            let room = checks.iter().map(|c| c.may_be_off).reduce(MayBeOff::and);
            stops.push(Stop {
                position: place.at,
                turn,
                firing_tdc: self.at_tdc(place.at, CrankAngle::ZERO),
                overlap_tdc: self.at_tdc(place.at, CrankAngle::TURN),
                signs: place.signs.clone(),
                checks,
                may_be_off: room.unwrap_or(MayBeOff::NONE),
            });
        }
        let total_turn = stops
            .iter()
            .fold(CrankAngle::ZERO, |sum, stop| sum + stop.turn);
        let margins = stops.iter().flat_map(|s| &s.checks).map(|c| c.margin);
        let smallest_margin = margins.min_by(|a, b| a.degrees().total_cmp(&b.degrees()));
        StopPlan {
            method: draft.method,
            from: draft.from,
            total_turn,
            walks,
            smallest_margin,
            unreachable: draft.unreachable.to_vec(),
            stops,
            exact: true,
        }
    }

    /// The plan that begins where changes of side are fewest, then turning least, then first as listed, after
    /// the head of the firing order. `start` fixes the cylinder it begins with.
    pub(super) fn best_turn(&self, draft: Draft<'_>, start: Option<CylinderIndex>) -> StopPlan {
        if let Some(start) = start {
            // From its firing TDC on everything comes in turn.
            let tdc = self.engine().dead_centre(start);
            let stands_there = draft.from.filter(|from| same(*from, tdc));
            let first = stands_there.unwrap_or_else(|| self.first_place(start, draft.places));
            return self.in_sequence(draft, first);
        }
        let head = CyclePosition::new(self.engine().cycle(), CrankAngle::ZERO);
        let mut best = self.in_sequence(draft, draft.from.unwrap_or(head));
        for place in draft.places {
            let plan = self.in_sequence(draft, place.at);
            let less_turning = best.total_turn - plan.total_turn;
            let better = plan.walks < best.walks
                || (plan.walks == best.walks && less_turning.degrees() > SAME_PLACE);
            if better {
                best = plan;
            }
        }
        best
    }

    /// The place where a plan that starts with a cylinder begins: the first one from its firing TDC
    /// on that checks one of its valves; its firing TDC itself if none does.
    fn first_place(&self, start: CylinderIndex, places: &[Place]) -> CyclePosition {
        let tdc = self.engine().dead_centre(start);
        let ahead = |place: CyclePosition| {
            if same(tdc, place) {
                0.0
            } else {
                tdc.forward_to(place).degrees()
            }
        };
        places
            .iter()
            .filter(|p| p.checks.iter().any(|c| c.valve.cylinder == start))
            .map(|p| p.at)
            .min_by(|a, b| ahead(*a).total_cmp(&ahead(*b)))
            .unwrap_or(tdc)
    }

    /// The first cylinder in the order that stands so far past its firing TDC.
    fn at_tdc(&self, here: CyclePosition, past: CrankAngle) -> Option<CylinderIndex> {
        let engine = self.engine();
        let mut order = engine.order().iter().copied();
        order.find(|&c| same(engine.dead_centre(c).turned(past), here))
    }
}

/// Names in the order of the alphabet, each once.
fn in_order<'s>(names: impl Iterator<Item = &'s str>) -> Vec<&'s str> {
    let mut names: Vec<&str> = names.collect();
    names.sort_unstable();
    names.dedup();
    names
}

/// For each stop, its sides in the order of the fewest changes of side in all; where that leaves a choice,
/// alphabetical.
fn visits<'s>(stops: &[Vec<&'s str>]) -> Vec<Vec<&'s str>> {
    let all = in_order(stops.iter().flatten().copied());
    let arrivals: Vec<Option<&str>> = core::iter::once(None)
        .chain(all.into_iter().map(Some))
        .collect();
    // Walks to come after each stop, for every side one may stand on then; the last stop first.
    let mut to_come: Vec<Vec<(Option<&str>, usize)>> = Vec::new();
    let mut after: Vec<(Option<&str>, usize)> = arrivals.iter().map(|a| (*a, 0)).collect();
    for sides in stops.iter().rev() {
        let here = arrivals.iter().map(|arrival| {
            let best = last_side(sides, *arrival, &after);
            (*arrival, best.map_or(0, |(walks, _)| walks))
        });
        let here = here.collect();
        to_come.push(core::mem::replace(&mut after, here));
    }
    let mut side = None;
    let mut out = Vec::new();
    for (sides, after) in stops.iter().zip(to_come.iter().rev()) {
        let last = last_side(sides, side, after).and_then(|(_, last)| last);
        let here = side.filter(|s| sides.contains(s));
        let between = sides.iter().copied();
        let mut visit: Vec<&str> = here.into_iter().collect();
        visit.extend(between.filter(|s| Some(*s) != here && Some(*s) != last));
        visit.extend(last.filter(|l| Some(*l) != here && sides.contains(l)));
        out.push(visit);
        side = last;
    }
    out
}

/// Walks from the arrival at a stop to the end of the plan, and the side to leave it from; of equal
/// ones the last in the alphabet, so that the stop begins with the first.
fn last_side<'s>(
    sides: &[&'s str],
    arrival: Option<&'s str>,
    after: &[(Option<&'s str>, usize)],
) -> Option<(usize, Option<&'s str>)> {
    let to_come = |side: Option<&'s str>| {
        let found = after.iter().find(|(of, _)| *of == side);
        found.map(|(_, walks)| *walks)
    };
    let stays = arrival.filter(|a| sides.contains(a));
    // The first stop is not walked to, nor the side one stands on.
    let free = arrival.is_none() || stays.is_some();
    let here = sides.len().saturating_sub(usize::from(free));
    if here == 0 && (sides.is_empty() || stays.is_some()) {
        return to_come(arrival).map(|walks| (walks, arrival));
    }
    sides
        .iter()
        .rev()
        .filter(|s| Some(**s) != stays)
        .filter_map(|s| to_come(Some(s)).map(|walks| (here + walks, Some(*s))))
        .min_by_key(|(walks, _)| *walks)
}
