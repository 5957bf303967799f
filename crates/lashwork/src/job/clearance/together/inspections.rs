//! What to inspect where one valve is an outlier.
//!
//! Common practice, no source: which faults close a gap and which open it follows from what each
//! does to the length between cam and valve. Nothing here is a finding.

use super::answer::Inspection;
use super::{Told, valve_at};
use crate::adjust::Adjuster;
use crate::diagnosis::Way;
use crate::quantity::Lash;
use crate::valve::ValveKind;
use alloc::vec::Vec;

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
        look_at: list(looser, seen.valve.kind, told.asked.adjuster),
    })
}

fn list(looser: bool, kind: ValveKind, adjuster: &Adjuster) -> Vec<&'static str> {
    let mut list =
        alloc::vec!["read it again first, with the cam lobe well away from the follower"];
    let screw = !matches!(adjuster, Adjuster::Shim { .. });
    let shim = !matches!(adjuster, Adjuster::Screw { .. });
    if looser {
        if screw {
            list.push("lock nut slack, so that the screw has backed off");
            list.push("pushrod bent or out of its seat, where there is one");
            list.push("rocker, its shaft or pedestal worn or loose");
            list.push(
                "valve tip or rocker pad worn hollow: a flat leaf reads less than the true gap",
            );
        }
        if shim {
            list.push("wrong or worn shim");
            list.push("cam lobe or follower worn");
        }
    } else {
        match kind {
            ValveKind::Exhaust => list.push("valve seat sinking, or valve stretching: compare compression, and watch how fast the gap closes"),
            ValveKind::Intake => list.push("valve seat sinking: compare compression, and watch how fast the gap closes"),
        }
        if screw {
            list.push("lock nut slack, so that the screw has moved in");
        }
        if shim {
            list.push("shim too thick, or not fully seated");
        }
        list.push("dirt or carbon between the parts, or a valve that does not seat fully");
    }
    list
}
