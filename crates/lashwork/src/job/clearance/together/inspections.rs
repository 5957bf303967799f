//! What to inspect where a valve is far from its kind.

use super::answer::Inspection;
use super::{Told, valve_at};
use crate::clearance::causes;
use crate::diagnosis::OddValve;

/// An odd valve and what to look at there.
pub(super) fn inspection(told: &Told<'_>, odd: &OddValve) -> Option<Inspection> {
    let seen = told.evidence.readings.get(odd.reading)?;
    Some(Inspection {
        valve: valve_at(told, odd.reading),
        looser: odd.is_looser(),
        off: odd.off,
        spreads: odd.spreads,
        look_at: causes(odd.is_looser(), Some(seen.valve.kind), told.asked.adjuster)
            .iter()
            .map(|cause| cause.text)
            .collect(),
    })
}
