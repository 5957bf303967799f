//! Stops at any angle set to the middle of what their valves allow.
//!
//! Uses `quantity` and `engine`.

use super::super::sequence::Place;
use super::super::{ValveId, ValveTrain};
use super::circle::Circle;
use super::stab::Fewest;
use crate::quantity::{CrankAngle, CyclePosition};

/// The middle of the widest arc that all windows share, among those of least turning. Where the crank
/// stands is given, least turning leaves no choice.
pub(super) fn one_stop(train: &ValveTrain<'_>, circle: &Circle, fewest: &Fewest) -> CyclePosition {
    let mut best: Option<(f64, CyclePosition)> = None;
    for first in &fewest.firsts {
        let edge = circle.at(first.place);
        let (back, ahead) = room(train, edge, circle.arcs.iter().map(|arc| arc.of));
        let (half, at) = if circle.is_free() {
            (
                f64::midpoint(back, ahead),
                moved(edge, (ahead - back) / 2.0),
            )
        } else {
            (back.min(ahead), edge)
        };
        // Rounding apart, the first of equal ones.
        if best.is_none_or(|(known, _)| half > known + 1e-9) {
            best = Some((half, at));
        }
    }
    best.map_or(circle.origin(), |(_, at)| at)
}

/// Sets every stop to the middle of the windows of its valves, but no farther than to its
/// neighbours, and leaves alone those that the turning hangs on: the last, and the first if the
/// turning counts from it.
pub(super) fn set_to_the_middle(
    train: &ValveTrain<'_>,
    places: &mut [Place],
    from: Option<CyclePosition>,
) {
    let fixed = usize::from(from.is_none());
    for i in fixed..places.len().saturating_sub(1) {
        let at = |place: Option<&Place>| place.map(|p| p.at);
        let before = match i.checked_sub(1) {
            Some(before) => at(places.get(before)),
            None => from,
        };
        let after = at(places.get(i + 1));
        let Some(place) = places.get_mut(i) else {
            continue;
        };
        let here = place.at;
        let (back, ahead) = room(train, here, place.checks.iter().map(|c| c.valve));
        let mut by = (ahead - back) / 2.0;
        if let Some(before) = before {
            by = by.max(-before.forward_to(here).degrees());
        }
        if let Some(after) = after {
            by = by.min(here.forward_to(after).degrees());
        }
        place.at = moved(here, by);
        for check in &mut place.checks {
            *check = train.check(check.valve, place.at).unwrap_or(*check);
        }
    }
}

/// How far back and how far on from a place all windows of some valves still hold the crank.
fn room(
    train: &ValveTrain<'_>,
    at: CyclePosition,
    valves: impl Iterator<Item = ValveId>,
) -> (f64, f64) {
    let (mut back, mut ahead) = (f64::INFINITY, f64::INFINITY);
    for valve in valves {
        let Some(window) = train.window(valve.kind) else {
            continue;
        };
        let phase = train.engine().own_phase(valve.cylinder, at);
        let inside = window.from().forward_to(phase).degrees();
        back = back.min(inside);
        ahead = ahead.min((window.length().degrees() - inside).max(0.0));
    }
    (back, ahead)
}

fn moved(at: CyclePosition, by: f64) -> CyclePosition {
    at.turned(CrankAngle::computed(by))
}
