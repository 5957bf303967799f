//! What is to be done at which valves, and the places where it can be.
//!
//! Uses `quantity` and `engine`.

use super::super::sequence::same;
use super::super::shim_place::{CYCLE, ShimArc, position};
use super::{ShimGroup, ShimVisit, ShimWork};
use crate::engine::SAME_PLACE;
use crate::quantity::{CrankAngle, CyclePosition};
use alloc::vec::Vec;

/// One thing to do, and where it may be done.
pub(super) struct Task<'a> {
    group: usize,
    member: usize,
    work: ShimWork,
    /// The arcs of each valve that must have its shim out here: one valve, or all of a ring.
    arcs: Vec<&'a [ShimArc]>,
}

impl Task<'_> {
    pub(super) fn can(&self, at: CyclePosition) -> bool {
        self.arcs
            .iter()
            .all(|arcs| arcs.iter().any(|arc| arc.serves(at)))
    }

    /// What is done there, valve by valve.
    pub(super) fn visits(&self, at: CyclePosition) -> impl Iterator<Item = ShimVisit> {
        let members = self.arcs.iter().zip(self.member..);
        members.map(move |(arcs, member)| self.visit(at, member, arcs))
    }

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

/// In the middle of what each set of valves that can be served together has in common.
pub(super) fn places(arcs: &[Vec<Vec<ShimArc>>]) -> Vec<CyclePosition> {
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

/// One group's ways to be worked, each a list of tasks in order.
pub(super) type Job<'a> = Vec<Vec<Task<'a>>>;

/// How each group can be worked: a ring in as many ways as it has valves, unless they have a place in
/// common; any other group in one.
pub(super) fn jobs<'a>(
    groups: &[ShimGroup],
    arcs: &'a [Vec<Vec<ShimArc>>],
    places: &[CyclePosition],
) -> Vec<Job<'a>> {
    let of_group = |(group, (of, members)): (usize, (&ShimGroup, &'a Vec<Vec<ShimArc>>))| {
        let placed: Vec<(usize, &'a [ShimArc])> = members
            .iter()
            .map(Vec::as_slice)
            .enumerate()
            .filter(|(_, arcs)| !arcs.is_empty())
            .collect();
        let task = |(member, arcs): &(usize, &'a [ShimArc]), work| Task {
            group,
            member: *member,
            work,
            arcs: Vec::from([*arcs]),
        };
        if !of.is_ring || placed.len() < 2 {
            let each = placed.iter().map(|one| task(one, ShimWork::Exchange));
            return Vec::from([each.collect()]);
        }
        let together = Task {
            group,
            member: 0,
            work: ShimWork::Exchange,
            arcs: members.iter().map(Vec::as_slice).collect(),
        };
        if places.iter().any(|at| together.can(*at)) {
            return Vec::from([Vec::from([together])]);
        }
        let begun_with = |(i, first): (usize, &(usize, &'a [ShimArc]))| {
            let (before, after) = (placed.iter().take(i), placed.iter().skip(i + 1));
            let others = after.chain(before);
            let others = others.map(|one| task(one, ShimWork::Exchange));
            core::iter::once(task(first, ShimWork::PutSpareIn))
                .chain(others)
                .chain(core::iter::once(task(first, ShimWork::TakeSpareOut)))
                .collect()
        };
        placed.iter().enumerate().map(begun_with).collect()
    };
    groups.iter().zip(arcs).enumerate().map(of_group).collect()
}
