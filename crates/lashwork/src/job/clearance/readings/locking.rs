//! What was learned of the lock nut, and what is taken of it.

use super::answer::LockingReport;
use crate::adjust::{Adjuster, LockNut};
use crate::clearance::locking::{size, way};
use crate::job::assumptions::Assumptions;
use crate::quantity::shown::reckoned;
use crate::tolerance::Uncertainty;
use alloc::format;
use alloc::string::String;

/// What was learned, if anything was given.
pub(in crate::job) fn report(adjuster: &Adjuster, inches: bool) -> Option<LockingReport> {
    let Adjuster::Screw {
        lock_nut: Some(nut),
        ..
    } = adjuster
    else {
        return None;
    };
    let half_width = nut.half_width(0.95);
    let text = match (nut.mean(), nut.spread(), half_width) {
        (Some(mean), Some(spread), Some(half)) => format!(
            "locking {} the gap by {} on the mean of {} pairs, standard deviation {} as felt; \
             the next within {} of that with 95 % probability",
            way(mean),
            size(mean, inches),
            nut.pairs(),
            reckoned(spread.mm(), inches),
            reckoned(half.mm(), inches)
        ),
        (Some(mean), ..) => format!(
            "locking {} the gap by {} in one pair; one pair does not show how much that varies",
            way(mean),
            size(mean, inches)
        ),
        _ => {
            String::from("no pairs: the shift of the gap on locking is not known; none is assumed")
        }
    };
    Some(LockingReport {
        pairs: nut.pairs(),
        mean: nut.mean(),
        spread_mm: nut.spread().map(Uncertainty::mm),
        half_width_95_mm: half_width.map(Uncertainty::mm),
        gap_uncertainty_mm: nut.uncertainty().mm(),
        text,
    })
}

/// What is taken of the screw's sense and of the nut.
pub(in crate::job) fn assume(adjuster: &Adjuster, assumptions: &mut Assumptions) {
    let Adjuster::Screw {
        inward_closes,
        lock_nut,
        ..
    } = adjuster
    else {
        return;
    };
    if inward_closes.is_none() {
        assumptions.add(
            "adjust.sense",
            "effect of the screw not stated: turning it in is assumed to close the gap",
        );
    }
    let pairs = lock_nut.as_ref().map_or(0, LockNut::pairs);
    if pairs == 0 {
        assumptions.add(
            "adjust.lock-nut",
            "shift of the gap when the lock nut is tightened not known: none assumed",
        );
        return;
    }
    if pairs == 1 {
        assumptions.add(
            "adjust.lock-nut-spread",
            "one pair of gaps does not show how much the shift on locking varies: no chance of \
             being in the set band is given",
        );
    }
    assumptions.add(
        "adjust.lock-nut-feel",
        "a gap set before locking is assumed to be as uncertain as those of the pairs; the scatter \
         of the hand is not subtracted from the spread of the pairs",
    );
}
