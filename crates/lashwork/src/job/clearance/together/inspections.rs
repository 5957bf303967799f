//! What to inspect where a valve is far from its kind.
//!
//! Common practice, no source: which faults close a gap and which open it follows from what each
//! does to the length between cam and valve. Nothing here is a finding.

use super::answer::Inspection;
use super::{Told, valve_at};
use crate::adjust::Adjuster;
use crate::diagnosis::OddValve;
use crate::valve::ValveKind;
use alloc::vec::Vec;

/// An odd valve and what to look at there.
pub(super) fn inspection(told: &Told<'_>, odd: &OddValve) -> Option<Inspection> {
    let seen = told.evidence.readings.get(odd.reading)?;
    Some(Inspection {
        valve: valve_at(told, odd.reading),
        looser: odd.is_looser(),
        off: odd.off,
        spreads: odd.spreads,
        look_at: list(odd.is_looser(), seen.valve.kind, told.asked.adjuster),
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
