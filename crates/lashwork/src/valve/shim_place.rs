//! Where in the cycle a shim may be changed, and in which order the valves are then come to.
//!
//! # Conventions
//! - Whoever presses a bucket down, or a rocker up, to get at the shim opens the valve. So the crank
//!   stands where the cam leaves the valve closed and the piston is away from its top: else valve and
//!   piston touch.
//! - Every valve of the cylinder is to be closed there; where that is nowhere so, the valve itself.
//! - The crank is never turned with a shim out. Where shims go round in a ring whose valves have no
//!   place in common, one of them gets a spare shim meanwhile.
//!
//! # Method
//! The arcs in which a cylinder's shims may be changed are cut into pieces in which the same cylinders
//! are served; in the middle of what each set of cylinders has in common lies a candidate. Turning
//! forward, each valve is come to at the first candidate that serves it after the valve whose shim it
//! gets; of all beginnings the one with the least turning is kept, and of the stops only those without
//! which it would not be so.
//!
//! # Source
//! Geometry. That valve and piston can touch when a spring is pressed down: a maker's manual, named in
//! the tests. How far is away is this library's choice.
//!
//! Uses `quantity` and `engine`.

use super::sequence::same;
use super::{ValveId, ValveKind, ValveTrain, Window};
use crate::engine::{CylinderIndex, SAME_PLACE};
use crate::quantity::{CrankAngle, Cycle, CyclePosition};
use alloc::vec::Vec;
use serde::Serialize;

/// A piston this share of its stroke below its top is away from it: 15 mm of a stroke of 50, more than
/// a valve lifts. This library's choice.
///
/// ```
/// assert!(lashwork::valve::AWAY_SHARE < 0.5);
/// ```
pub const AWAY_SHARE: f64 = 0.3;

/// Where rods are not described a piston is taken to be away from its top so many crank degrees before
/// and after: with usual rods that is three tenths of the stroke. To be listed as an assumption.
///
/// ```
/// assert_eq!(lashwork::valve::ASSUMED_AWAY.degrees(), 60.0);
/// ```
pub const ASSUMED_AWAY: CrankAngle = CrankAngle::of_degrees::<60>();

/// A stop nearer to the end of an arc than this serves a cylinder only if the arc has no more: a crank
/// is set by eye.
const EASY: f64 = 5.0;

/// Degrees of the cycle.
const CYCLE: f64 = 720.0;

/// An arc of the crank in which the shims of a cylinder may be changed.
///
/// ```
/// use lashwork::engine::Engine;
/// use lashwork::quantity::CrankAngle;
/// use lashwork::valve::{CamEvents, ValveTrain};
/// let engine = Engine::inline_four_stroke(&[1, 3, 4, 2]).unwrap();
/// let d = |x| CrankAngle::from_degrees(x);
/// // Exhaust opens 120 after firing TDC, intake closes 120 before it; 20 of guard.
/// let cam = CamEvents::new(d(28.0)?, d(60.0)?, d(60.0)?, d(28.0)?)?;
/// let train = ValveTrain::new(&engine, &cam, d(20.0)?, 1, 1)?;
/// let arcs = train.shim_arcs(train.valves()[0]);
/// let ends: Vec<(f64, f64)> = arcs.iter().map(|a| (a.from.degrees(), a.length.degrees())).collect();
/// // 60 to 100 after firing TDC, and 100 to 60 before it.
/// assert_eq!(ends, [(60.0, 40.0), (620.0, 40.0)]);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ShimArc {
    /// Where it begins.
    pub from: CyclePosition,
    /// How long it is.
    pub length: CrankAngle,
    /// Whether every valve of the cylinder is closed there, not only this one.
    pub all_closed: bool,
}

impl ShimArc {
    /// How far a place lies inside, to the nearer end; none outside.
    #[must_use]
    pub fn margin(&self, at: CyclePosition) -> Option<CrankAngle> {
        let inside = self.from.forward_to(at);
        let rest = self.length - inside;
        (rest.degrees() >= 0.0).then(|| if rest < inside { rest } else { inside })
    }

    fn serves(&self, at: CyclePosition) -> bool {
        let least = EASY.min(0.49 * self.length.degrees());
        self.margin(at).is_some_and(|m| m.degrees() >= least)
    }
}

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

/// A piece of a circle in degrees: where it begins and how long it is.
type Piece = (f64, f64);

impl ValveTrain<'_> {
    /// Where the shim of a valve may be changed: the valves of its cylinder closed, guards kept, and the
    /// piston at least [`AWAY_SHARE`] of its stroke below its top, or [`ASSUMED_AWAY`] from it where
    /// its rod is not described. Only the valve's own window counts where the cylinder's have no such
    /// arc in common; nothing if it has none itself.
    #[must_use]
    pub fn shim_arcs(&self, valve: ValveId) -> Vec<ShimArc> {
        let own = self.pieces_of(valve.kind);
        let other = match valve.kind {
            ValveKind::Intake => ValveKind::Exhaust,
            ValveKind::Exhaust => ValveKind::Intake,
        };
        let away = self.away(valve.cylinder);
        let all = common(&[&own, &self.pieces_of(other), &away]);
        let (pieces, all_closed) = if all.is_empty() {
            (common(&[&own, &away]), false)
        } else {
            (all, true)
        };
        let arcs = pieces.into_iter().map(|(from, length)| ShimArc {
            from: self.engine().crank_at(valve.cylinder, position(from)),
            length: CrankAngle::computed(length),
            all_closed,
        });
        arcs.collect()
    }

    fn pieces_of(&self, kind: ValveKind) -> Vec<Piece> {
        let window = self.window(kind);
        let piece = |w: Window| (w.from().degrees(), w.length().degrees());
        window.map(piece).into_iter().collect()
    }

    /// Where the piston is away from its top, in the cylinder's own phase.
    fn away(&self, cylinder: CylinderIndex) -> Vec<Piece> {
        let known = self.engine().piston_away(cylinder, AWAY_SHARE);
        let (before, after) = known.unwrap_or((ASSUMED_AWAY, ASSUMED_AWAY));
        let (before, after) = (before.degrees(), after.degrees());
        let length = 360.0 - before - after;
        Vec::from([(after, length), (360.0 + after, length)])
    }

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
        let candidates = candidates(&arcs);
        let chains = chains(groups, &arcs, &candidates);
        let Some((start, reach)) = beginning(&chains, &candidates, from) else {
            let stops = Vec::new();
            return ShimRoute { stops, nowhere };
        };
        let kept = without_idle(&chains, candidates, start, reach);
        let stops = stops(&chains, &kept, start, from);
        ShimRoute { stops, nowhere }
    }
}

/// One thing to do, and where it may be done.
struct Task<'a> {
    group: usize,
    member: usize,
    work: ShimWork,
    /// The arcs of each valve that must have its shim out here: one valve, or all of a ring.
    arcs: Vec<&'a [ShimArc]>,
}

impl Task<'_> {
    fn can(&self, at: CyclePosition) -> bool {
        self.arcs
            .iter()
            .all(|arcs| arcs.iter().any(|arc| arc.serves(at)))
    }

    /// Of the tasks' own valve.
    fn visit(&self, at: CyclePosition, member: usize, arcs: &[ShimArc]) -> ShimVisit {
        let arc = arcs.iter().find(|arc| arc.serves(at));
        ShimVisit {
            group: self.group,
            member,
            work: self.work,
            margin: arc.and_then(|a| a.margin(at)).unwrap_or(CrankAngle::ZERO),
            all_closed: arc.is_some_and(|a| a.all_closed),
        }
    }
}

fn position(degrees: f64) -> CyclePosition {
    CyclePosition::new(Cycle::FourStroke, CrankAngle::computed(degrees))
}

/// What several sets of pieces have in common, in order.
fn common(sets: &[&Vec<Piece>]) -> Vec<Piece> {
    let ends = |(from, length): &Piece| [*from, from + length];
    let mut cuts: Vec<f64> = sets
        .iter()
        .flat_map(|set| set.iter().flat_map(ends))
        .map(|at| position(at).degrees())
        .collect();
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|a, b| *a - *b <= SAME_PLACE);
    let holds = |at: f64, (from, length): &Piece| {
        position(*from).forward_to(position(at)).degrees() <= *length
    };
    let mut out: Vec<Piece> = Vec::new();
    for (i, cut) in cuts.iter().enumerate() {
        let next = cuts.get(i + 1).copied();
        let next = next.unwrap_or_else(|| cuts.first().map_or(*cut, |first| first + CYCLE));
        let (length, middle) = (next - cut, f64::midpoint(*cut, next));
        if sets.iter().all(|set| set.iter().any(|p| holds(middle, p))) {
            match out.last_mut() {
                Some((from, before)) if (*from + *before - cut).abs() <= SAME_PLACE => {
                    *before += length;
                }
                _ => out.push((*cut, length)),
            }
        }
    }
    // What goes on through the end of the cycle is one piece.
    if let [(first, length), .., (last, before)] = out.as_mut_slice()
        && (*last + *before - *first - CYCLE).abs() <= SAME_PLACE
    {
        *before += *length;
        out.remove(0);
    }
    out
}

/// In the middle of what each set of valves that can be served together has in common.
fn candidates(arcs: &[Vec<Vec<ShimArc>>]) -> Vec<CyclePosition> {
    let all: Vec<&ShimArc> = arcs.iter().flatten().flatten().collect();
    let mut ends: Vec<f64> = all
        .iter()
        .flat_map(|arc| [arc.from, arc.from.turned(arc.length)])
        .map(CyclePosition::degrees)
        .collect();
    ends.sort_by(f64::total_cmp);
    ends.dedup_by(|a, b| *a - *b <= SAME_PLACE);
    let mut out: Vec<CyclePosition> = Vec::new();
    for (i, end) in ends.iter().enumerate() {
        let next = ends.get(i + 1).copied();
        let next = next.unwrap_or_else(|| ends.first().map_or(*end, |first| first + CYCLE));
        let here = position(f64::midpoint(*end, next));
        let (mut back, mut on) = (f64::INFINITY, f64::INFINITY);
        for arc in all.iter().filter(|arc| arc.margin(here).is_some()) {
            let inside = arc.from.forward_to(here).degrees();
            back = back.min(inside);
            on = on.min(arc.length.degrees() - inside);
        }
        if back.is_finite() && on.is_finite() {
            let middle = here.turned(CrankAngle::computed(0.5 * (on - back)));
            if !out.iter().any(|known| same(*known, middle)) {
                out.push(middle);
            }
        }
    }
    out
}

/// What is to be done, each group in its order.
fn chains<'a>(
    groups: &[ShimGroup],
    arcs: &'a [Vec<Vec<ShimArc>>],
    candidates: &[CyclePosition],
) -> Vec<Vec<Task<'a>>> {
    let mut out = Vec::new();
    for (group, (of, members)) in groups.iter().zip(arcs).enumerate() {
        let placed = members.iter().enumerate().filter(|(_, a)| !a.is_empty());
        let task = |member, work, arcs| Task {
            group,
            member,
            work,
            arcs,
        };
        let mut chain: Vec<Task<'a>> = placed
            .map(|(member, arcs)| task(member, ShimWork::Exchange, Vec::from([arcs.as_slice()])))
            .collect();
        let together = task(
            0,
            ShimWork::Exchange,
            members.iter().map(Vec::as_slice).collect(),
        );
        if of.is_ring && members.len() > 1 {
            if candidates.iter().any(|at| together.can(*at)) {
                chain = Vec::from([together]);
            } else if let (Some(first), Some(arcs)) = (chain.first_mut(), members.first())
                && first.member == 0
            {
                first.work = ShimWork::PutSpareIn;
                chain.push(task(
                    0,
                    ShimWork::TakeSpareOut,
                    Vec::from([arcs.as_slice()]),
                ));
            }
        }
        out.push(chain);
    }
    out
}

/// When each task is done, in degrees forward from `start`, at the first candidate that serves it after
/// the one before it; none if some task is never served.
fn times(
    chains: &[Vec<Task<'_>>],
    candidates: &[CyclePosition],
    start: CyclePosition,
) -> Option<Vec<Vec<(f64, CyclePosition)>>> {
    let ahead: Vec<(f64, CyclePosition)> = candidates
        .iter()
        .map(|at| {
            let on = start.forward_to(*at).degrees();
            // What lies within rounding before the start is the start.
            (if CYCLE - on <= SAME_PLACE { 0.0 } else { on }, *at)
        })
        .collect();
    let of_chain = |chain: &Vec<Task<'_>>| {
        let mut now = 0.0_f64;
        let done = chain.iter().map(|task| {
            let next = |(on, at): &(f64, CyclePosition)| {
                let laps = libm::ceil(((now - on) / CYCLE - 1e-9).max(0.0));
                task.can(*at).then_some((on + laps * CYCLE, *at))
            };
            let found = ahead.iter().filter_map(next);
            let found = found.min_by(|a, b| a.0.total_cmp(&b.0))?;
            now = found.0;
            Some(found)
        });
        done.collect::<Option<Vec<_>>>()
    };
    chains.iter().map(of_chain).collect()
}

/// How far the last task lies from the start.
fn reach_of(times: &[Vec<(f64, CyclePosition)>]) -> f64 {
    times
        .iter()
        .flatten()
        .map(|(on, _)| *on)
        .fold(0.0, f64::max)
}

/// The candidate to begin with for the least turning, and that turning.
fn beginning(
    chains: &[Vec<Task<'_>>],
    candidates: &[CyclePosition],
    from: Option<CyclePosition>,
) -> Option<(CyclePosition, f64)> {
    let mut best: Option<(CyclePosition, f64, f64)> = None;
    for start in candidates {
        let Some(times) = times(chains, candidates, *start) else {
            continue;
        };
        let reach = reach_of(&times);
        let all = reach + from.map_or(0.0, |from| from.forward_to(*start).degrees());
        if best.is_none_or(|(_, _, least)| all < least - SAME_PLACE) {
            best = Some((*start, reach, all));
        }
    }
    best.map(|(start, reach, _)| (start, reach))
}

/// Takes out the candidates without which the turning stays what it is, those that serve least first.
fn without_idle(
    chains: &[Vec<Task<'_>>],
    candidates: Vec<CyclePosition>,
    start: CyclePosition,
    reach: f64,
) -> Vec<CyclePosition> {
    let served = |at: &CyclePosition| {
        let tasks = chains.iter().flatten();
        tasks.filter(|task| task.can(*at)).count()
    };
    let mut order = candidates.clone();
    order.sort_by_key(served);
    let mut kept = candidates;
    for out in order {
        let fewer: Vec<CyclePosition> = kept.iter().copied().filter(|at| *at != out).collect();
        let as_far =
            times(chains, &fewer, start).is_some_and(|t| reach_of(&t) <= reach + SAME_PLACE);
        if as_far {
            kept = fewer;
        }
    }
    kept
}

fn stops(
    chains: &[Vec<Task<'_>>],
    candidates: &[CyclePosition],
    start: CyclePosition,
    from: Option<CyclePosition>,
) -> Vec<ShimStop> {
    let Some(times) = times(chains, candidates, start) else {
        return Vec::new();
    };
    let mut all: Vec<(f64, CyclePosition, &Task<'_>)> = Vec::new();
    for (chain, times) in chains.iter().zip(&times) {
        all.extend(
            chain
                .iter()
                .zip(times)
                .map(|(task, (on, at))| (*on, *at, task)),
        );
    }
    // Stable: at one stop the groups stay in their order.
    all.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut out: Vec<ShimStop> = Vec::new();
    let mut before: Option<f64> = None;
    for (on, at, task) in all {
        if before.is_none_or(|before| on > before + SAME_PLACE) {
            let turn = match (before, from) {
                (Some(before), _) => CrankAngle::computed(on - before),
                (None, Some(from)) => from.forward_to(at),
                (None, None) => CrankAngle::ZERO,
            };
            out.push(ShimStop {
                position: at,
                turn,
                visits: Vec::new(),
            });
        }
        before = Some(on);
        if let Some(stop) = out.last_mut() {
            let members = task.arcs.iter().zip(task.member..);
            let visits = members.map(|(arcs, member)| task.visit(at, member, arcs));
            stop.visits.extend(visits);
        }
    }
    out
}
