//! What to inspect where a valve is far from its kind.

use super::answer::{Inspection, StandsApart};
use super::{Told, valve_at};
use crate::clearance::causes;
use crate::diagnosis::{ApartValve, OddValve};
use crate::job::text::percent;
use crate::quantity::shown::by_hand;
use alloc::format;
use alloc::string::String;

/// How far an odd valve is from its kind, in the unit of its lash.
pub(super) fn off_text(told: &Told<'_>, odd: &OddValve) -> String {
    let seen = told.evidence.readings.get(odd.reading);
    let taken = seen.and_then(|seen| {
        let mut all = told.asked.readings.iter();
        all.find(|taken| taken.valve == seen.valve)
    });
    let way = if odd.is_looser() { "looser" } else { "tighter" };
    let by = by_hand(
        odd.off.mm().abs(),
        taken.is_some_and(|taken| taken.found.in_inches()),
    );
    format!("{by} {way} than the rest of its kind")
}

/// An odd valve and what to look at there.
pub(super) fn inspection(told: &Told<'_>, odd: &OddValve) -> Option<Inspection> {
    let seen = told.evidence.readings.get(odd.reading)?;
    Some(Inspection {
        valve: valve_at(told, odd.reading),
        looser: odd.is_looser(),
        off: odd.off,
        off_text: off_text(told, odd),
        spreads: odd.spreads,
        look_at: causes(odd.is_looser(), Some(seen.valve.kind), told.asked.adjuster)
            .iter()
            .map(|cause| cause.text)
            .collect(),
    })
}

/// A valve that stands apart, and what to do about it.
pub(super) fn stands_apart(told: &Told<'_>, apart: &ApartValve) -> StandsApart {
    let name = valve_at(told, apart.valve.reading);
    StandsApart {
        text: format!(
            "{name} stands apart, {}: measure it once more before it is set (it is odd with a probability of {})",
            off_text(told, &apart.valve),
            percent(apart.chance)
        ),
        valve: name,
        looser: apart.valve.is_looser(),
        off: apart.valve.off,
        probability: apart.chance,
    }
}
