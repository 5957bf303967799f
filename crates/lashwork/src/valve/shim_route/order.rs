//! The way round with the least turning.
//!
//! Uses `quantity` and `engine`.

use super::super::shim_place::CYCLE;
use super::ShimStop;
use super::task::{Job, Task};
use crate::engine::SAME_PLACE;
use crate::quantity::{CrankAngle, CyclePosition};
use alloc::vec::Vec;

/// A place to stop at.
#[derive(Clone, Copy, PartialEq)]
struct Place {
    at: CyclePosition,
    /// Where the crank stands: only before it is turned.
    is_here: bool,
}

/// A task, the place where it is done, and how many degrees of turning that is from the first place.
type Done<'j, 'a> = (f64, CyclePosition, &'j Task<'a>);

/// The stops of the way with the least turning, from where the crank stands if that is given; none if
/// nothing can be done.
pub(super) fn least_turning(
    jobs: &[Job<'_>],
    places: Vec<CyclePosition>,
    from: Option<CyclePosition>,
) -> Vec<ShimStop> {
    let place = |at, is_here| Place { at, is_here };
    let found = places.into_iter().map(|at| place(at, false));
    let places: Vec<Place> = found.chain(from.map(|at| place(at, true))).collect();
    let mut best: Option<(CyclePosition, f64, f64)> = None;
    for start in places.iter().map(|p| p.at) {
        let Some(done) = done(jobs, &places, start) else {
            continue;
        };
        let reach = reach(&done);
        let all = reach + from.map_or(0.0, |from| from.forward_to(start).degrees());
        if best.is_none_or(|(_, _, least)| all < least - SAME_PLACE) {
            best = Some((start, reach, all));
        }
    }
    let Some((start, reach, _)) = best else {
        return Vec::new();
    };
    let kept = without_idle(jobs, places, start, reach);
    done(jobs, &kept, start).map_or_else(Vec::new, |done| stops(done, from))
}

/// Everything that is done, each group's in its order and at the first place that serves it after what
/// comes before it; none if something can be done nowhere.
fn done<'j, 'a>(
    jobs: &'j [Job<'a>],
    places: &[Place],
    start: CyclePosition,
) -> Option<Vec<Done<'j, 'a>>> {
    let ahead: Vec<(f64, &Place)> = places
        .iter()
        .map(|place| {
            let on = start.forward_to(place.at).degrees();
            // What lies within rounding before the start is the start.
            (if CYCLE - on <= SAME_PLACE { 0.0 } else { on }, place)
        })
        .collect();
    let in_turn = |tasks: &'j Vec<Task<'a>>| {
        let mut now = 0.0_f64;
        let done = tasks.iter().map(|task| {
            let next = |(on, place): &(f64, &Place)| {
                let laps = libm::ceil(((now - on) / CYCLE - 1e-9).max(0.0));
                let on = on + laps * CYCLE;
                let is_reached = task.can(place.at) && (!place.is_here || on <= 0.0);
                is_reached.then_some((on, place.at, task))
            };
            let found = ahead.iter().filter_map(next);
            let found = found.min_by(|a, b| a.0.total_cmp(&b.0))?;
            now = found.0;
            Some(found)
        });
        done.collect::<Option<Vec<_>>>()
    };
    let mut all = Vec::new();
    for job in jobs {
        let mut best: Option<Vec<Done<'j, 'a>>> = None;
        for done in job.iter().filter_map(in_turn) {
            let sooner = |known: &Vec<Done<'_, '_>>| reach(&done) < reach(known) - SAME_PLACE;
            if best.as_ref().is_none_or(sooner) {
                best = Some(done);
            }
        }
        all.extend(best?);
    }
    Some(all)
}

/// How far the last of it lies from the start.
fn reach(done: &[Done<'_, '_>]) -> f64 {
    done.iter().map(|(on, _, _)| *on).fold(0.0, f64::max)
}

/// Takes out the places without which the turning stays what it is, those that serve least first.
fn without_idle(
    jobs: &[Job<'_>],
    places: Vec<Place>,
    start: CyclePosition,
    least: f64,
) -> Vec<Place> {
    let served = |place: &Place| {
        let tasks = jobs.iter().filter_map(|job| job.first()).flatten();
        tasks.filter(|task| task.can(place.at)).count()
    };
    let mut order = places.clone();
    order.sort_by_key(served);
    let mut kept = places;
    for out in order {
        let fewer: Vec<Place> = kept.iter().copied().filter(|at| *at != out).collect();
        let as_far = done(jobs, &fewer, start).is_some_and(|d| reach(&d) <= least + SAME_PLACE);
        if as_far {
            kept = fewer;
        }
    }
    kept
}

fn stops(mut all: Vec<Done<'_, '_>>, from: Option<CyclePosition>) -> Vec<ShimStop> {
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
            stop.visits.extend(task.visits(at));
        }
    }
    out
}
