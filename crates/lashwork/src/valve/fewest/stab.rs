//! The fewest stops, and the least turning with so few.
//!
//! Uses nothing but the circle.

use super::circle::Circle;
use crate::engine::SAME_PLACE;
use alloc::vec::Vec;

/// How many stops are needed, and the places a plan of least turning may begin at.
#[derive(Debug)]
pub(super) struct Fewest {
    pub(super) stops: usize,
    pub(super) firsts: Vec<First>,
}

/// A first stop, and how many places on the last one may be at most.
#[derive(Clone, Copy, Debug)]
pub(super) struct First {
    pub(super) place: usize,
    pub(super) last: usize,
}

/// The fewest stops; none if no arc needs one.
pub(super) fn fewest(circle: &Circle) -> Option<Fewest> {
    if circle.arcs.is_empty() {
        return None;
    }
    let counted: Vec<(usize, usize)> = (0..circle.len())
        .filter_map(|first| stops_from(circle, first).map(|stops| (first, stops)))
        .collect();
    let stops = counted.iter().map(|(_, stops)| *stops).min()?;
    let firsts: Vec<(usize, f64)> = counted
        .into_iter()
        .filter(|(_, count)| *count == stops)
        .map(|(first, _)| {
            (
                first,
                circle.turning(first, latest_beginning(circle, first)),
            )
        })
        .collect();
    let least = firsts
        .iter()
        .map(|(_, turning)| *turning)
        .reduce(f64::min)?;
    let firsts = firsts
        .into_iter()
        .filter(|(_, turning)| *turning <= least + SAME_PLACE)
        .filter_map(|(place, _)| {
            let within = |on: &usize| circle.turning(place, *on) <= least + SAME_PLACE;
            let last = (0..=circle.rest(place)).rev().find(within)?;
            Some(First { place, last })
        })
        .collect();
    Some(Fewest { stops, firsts })
}

/// Stops needed if the first one is there; none if it leaves an arc behind that the crank does not
/// reach again within the cycle.
fn stops_from(circle: &Circle, first: usize) -> Option<usize> {
    let (mut on, mut stops) = (0, 1);
    loop {
        let reach = on + circle.reach_all(first + on);
        // All arcs left hold the first stop.
        if reach >= circle.len() {
            return Some(stops);
        }
        let next = reach.min(circle.rest(first));
        if next <= on {
            return None;
        }
        (on, stops) = (next, stops + 1);
    }
}

/// How many places on the latest arc begins that does not hold the first stop.
fn latest_beginning(circle: &Circle, first: usize) -> usize {
    let open = circle.arcs.iter().filter(|arc| !circle.holds(arc, first));
    let begins = open.map(|arc| circle.steps(first, arc.begin));
    begins.max().unwrap_or(0)
}

/// For a first stop, the stops still needed after each place on from it.
pub(super) fn still_needed(circle: &Circle, first: usize) -> Vec<usize> {
    let rest = circle.rest(first);
    let mut needed = alloc::vec![super::circle::NEVER; rest + 1];
    for on in (0..=rest).rev() {
        let reach = on + circle.reach_all(first + on);
        let need = if reach >= circle.len() {
            0
        } else {
            let next = reach.min(rest);
            let after = needed.get(next).copied();
            match after {
                Some(after) if next > on => after.saturating_add(1),
                _ => super::circle::NEVER,
            }
        };
        if let Some(slot) = needed.get_mut(on) {
            *slot = need;
        }
    }
    needed
}
