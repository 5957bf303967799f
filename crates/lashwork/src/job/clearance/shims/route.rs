//! In which order the valves of a plan are come to, and where the crank is then.

use super::answer::{ShimPlanReport, ShimStopReport, ShimVisitReport};
use super::{Planned, Turning};
use crate::adjust::ShimSource;
use crate::quantity::{CrankAngle, CyclePosition, Length};
use crate::valve::{ShimGroup, ShimRoute, ShimStop, ShimVisit, ShimWork};
use alloc::string::ToString;
use alloc::vec::Vec;

/// The groups of a plan and the way round them.
pub(super) struct Way<'g> {
    groups: &'g [Vec<usize>],
    route: ShimRoute,
}

impl<'g> Way<'g> {
    pub(super) fn of(
        groups: &'g [Vec<usize>],
        sources: &[ShimSource],
        planned: &[Planned<'_>],
        turning: Option<Turning<'_>>,
    ) -> Self {
        let as_valves = groups.iter().map(|group| {
            let first = group.first().and_then(|i| sources.get(*i));
            let last = group.last().copied();
            ShimGroup {
                valves: group
                    .iter()
                    .filter_map(|i| Some(planned.get(*i)?.valve))
                    .collect(),
                is_ring: last.is_some_and(|last| first == Some(&ShimSource::Slot(last))),
            }
        });
        let as_valves: Vec<ShimGroup> = as_valves.collect();
        let route = turning.map(|t| t.train.shim_route(&as_valves, t.from));
        Self {
            groups,
            route: route.unwrap_or_default(),
        }
    }

    fn index(&self, group: usize, member: usize) -> Option<usize> {
        self.groups.get(group)?.get(member).copied()
    }

    /// Group, valve and stop of each step, as the valves get their shims; those without a stop last.
    pub(super) fn order(&self) -> Vec<(usize, usize, Option<usize>)> {
        let mut out: Vec<(usize, usize, Option<usize>)> = Vec::new();
        for (stop, number) in self.route.stops.iter().zip(1..) {
            for visit in &stop.visits {
                if visit.work != ShimWork::PutSpareIn
                    && let Some(index) = self.index(visit.group, visit.member)
                {
                    out.push((visit.group, index, Some(number)));
                }
            }
        }
        for (number, group) in self.groups.iter().enumerate() {
            for index in group {
                if !out.iter().any(|(_, known, _)| known == index) {
                    out.push((number, *index, None));
                }
            }
        }
        out
    }

    /// Writes the stops into the report, which has its moves.
    pub(super) fn fill(
        &self,
        planned: &[Planned<'_>],
        turning: Option<Turning<'_>>,
        report: &mut ShimPlanReport,
    ) {
        let Some(turning) = turning else { return };
        let mut stops = Vec::new();
        for stop in &self.route.stops {
            let work = stop.visits.iter().filter_map(|visit| {
                let valve = planned.get(self.index(visit.group, visit.member)?)?;
                let step = report.moves.iter().position(|m| m.valve == valve.name)?;
                Some(visited(turning, stop, visit, (valve, step + 1)))
            });
            let work = work.collect();
            let engine = turning.train.engine();
            let start = CyclePosition::new(engine.cycle(), CrankAngle::ZERO);
            let from_first = start.forward_to(stop.position);
            let rim = CrankAngle::computed(from_first.degrees() % 360.0);
            stops.push(ShimStopReport {
                position: stop.position,
                turn: stop.turn,
                rotor: from_first.at_distributor(engine.cycle()),
                pulley_mark_mm: turning.pulley.map(|p| p.arc(rim).mm()),
                work,
            });
        }
        let turns = stops.iter().map(|s| s.turn);
        report.total_turn = turns.fold(CrankAngle::ZERO, |sum, turn| sum + turn);
        report.stops = stops;
    }
}

fn visited(
    turning: Turning<'_>,
    stop: &ShimStop,
    visit: &ShimVisit,
    (valve, step): (&Planned<'_>, usize),
) -> ShimVisitReport {
    let engine = turning.train.engine();
    let cylinder = valve.valve.cylinder;
    let phase = engine.own_phase(cylinder, stop.position);
    let past = phase.degrees();
    let past = if past > 360.0 { past - 720.0 } else { past };
    let label = engine.cylinder(cylinder);
    ShimVisitReport {
        valve: valve.name.to_string(),
        step,
        work: visit.work,
        cylinder: label.map(|c| c.label.to_string()).unwrap_or_default(),
        after_firing_tdc: CrankAngle::computed(past),
        margin: visit.margin,
        piston_down_mm: engine.piston_drop(cylinder, phase).map(Length::mm),
        all_closed: visit.all_closed,
    }
}
