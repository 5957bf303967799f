//! What to inspect where one valve is an outlier.

use super::answer::Inspection;
use super::{Told, valve_at};
use crate::clearance::causes;
use crate::diagnosis::Way;
use crate::quantity::Lash;

/// The valve of a way and what to look at there.
pub(super) fn inspection(told: &Told<'_>, way: &Way) -> Option<Inspection> {
    let Way::Unlike(reading) = way else {
        return None;
    };
    let seen = told.evidence.readings.get(*reading)?;
    let set = told
        .evidence
        .sources
        .first()?
        .limits(seen.valve.kind)
        .set_to();
    let found = seen
        .felt
        .centre()
        .or(seen.felt.low())
        .or(seen.felt.high())?;
    let looser = found > Lash::from_nominal(set.nominal()).ok()?;
    Some(Inspection {
        valve: valve_at(told, *reading),
        looser,
        look_at: causes(looser, Some(seen.valve.kind), told.asked.adjuster)
            .iter()
            .map(|cause| cause.text)
            .collect(),
    })
}
