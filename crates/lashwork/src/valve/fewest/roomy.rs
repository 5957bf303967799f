//! The largest least margin that the fewest stops allow, up to a comfortable one.
//!
//! # Method
//! What is asked for, a margin kept at every valve with as few stops, is possible up to some margin and
//! not beyond. Among listed places that margin is one that some valve has at some place. At any angle
//! stops can be moved on to where an arc closes, so it is half the way from where some window opens to
//! where one closes, which is where the shortened arcs of the two just meet. The list is sorted and
//! halved, so that a few searches for the fewest stops find it.
//!
//! Uses `quantity` and `engine`.

use super::super::{StopPlan, StoppingPoints, ValveKind, ValveTrain};
use super::circle::{Arc, Circle};
use super::stab::{self, Fewest};
use crate::quantity::{CrankAngle, CyclePosition};
use alloc::vec::Vec;

/// The circle whose arcs keep that margin, and the fewest stops there; none if no valve can be reached.
pub(super) fn roomiest(
    train: &ValveTrain<'_>,
    places: &StoppingPoints,
    from: Option<CyclePosition>,
) -> (Circle, Option<Fewest>) {
    let any_angle = matches!(places, StoppingPoints::AnyAngle);
    let with = |least: f64| {
        let at = if any_angle {
            edges(train, from, least)
        } else {
            places.positions(train.engine())
        };
        let circle = Circle::new(train, at, from, least);
        let fewest = stab::fewest(&circle);
        (circle, fewest)
    };
    let (all, fewest) = with(0.0);
    let Some(fewest) = fewest else {
        return (all, None);
    };
    let kept = |least: f64| {
        let (circle, found) = with(least);
        let reached = circle.unreachable.len() == all.unreachable.len();
        let found = found.filter(|f| reached && f.stops == fewest.stops)?;
        Some((circle, Some(found)))
    };
    let comfortable = StopPlan::COMFORTABLE_MARGIN.degrees();
    if let Some(found) = kept(comfortable) {
        return found;
    }
    let mut margins = if any_angle {
        halves(train)
    } else {
        let margins = all.arcs.iter().flat_map(Arc::margins);
        margins.copied().collect()
    };
    margins.retain(|m| *m > 0.0 && *m < comfortable);
    margins.sort_by(f64::total_cmp);
    margins.dedup();
    let mut best = None;
    let mut left = margins.as_slice();
    while let Some(margin) = left.get(left.len() / 2) {
        let (below, from_it) = left.split_at(left.len() / 2);
        match kept(*margin) {
            Some(found) => {
                best = Some(found);
                left = from_it.get(1..).unwrap_or_default();
            }
            None => left = below,
        }
    }
    best.unwrap_or((all, Some(fewest)))
}

/// Where the windows of all valves open and close, shortened by a margin at both ends.
fn ends(train: &ValveTrain<'_>, least: f64) -> Vec<(CyclePosition, CyclePosition)> {
    let by = CrankAngle::computed(least);
    let mut out = Vec::new();
    for cylinder in train.engine().indices() {
        for kind in [ValveKind::Intake, ValveKind::Exhaust] {
            if let Some(window) = train.window(kind) {
                let at = |phase| train.engine().crank_at(cylinder, phase);
                let closes = window.from().turned(window.length() - by);
                out.push((at(window.from().turned(by)), at(closes)));
            }
        }
    }
    out
}

/// The ends of all arcs, and where the crank stands: places enough for the fewest stops at any angle.
fn edges(train: &ValveTrain<'_>, from: Option<CyclePosition>, least: f64) -> Vec<CyclePosition> {
    let mut all: Vec<CyclePosition> = from.into_iter().collect();
    for (opens, closes) in ends(train, least) {
        for edge in [opens, closes] {
            let apart = |p: &CyclePosition| p.forward_to(edge).degrees();
            // Rounding apart, the same edge.
            if !all.iter().any(|known| apart(known) < 1e-9) {
                all.push(edge);
            }
        }
    }
    all
}

/// Half the way from each place where a window opens to each where one closes.
fn halves(train: &ValveTrain<'_>) -> Vec<f64> {
    let ends = ends(train, 0.0);
    let half = |opens: CyclePosition, closes| 0.5 * opens.forward_to(closes).degrees();
    let all = ends.iter().flat_map(|(opens, _)| {
        let closings = ends.iter().map(|(_, closes)| *closes);
        closings.map(|closes| half(*opens, closes))
    });
    all.collect()
}
