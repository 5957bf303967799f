//! Which causes come before any setting, which numbers they spoil, and which odd valves they leave
//! unexplained.

use super::{JointFinding, Told, words};
use crate::diagnosis::{Diagnosis, OddValve, ReadingFault, Seen, Way, WeighedCause};
use crate::job::clearance::StopWorkCode;
use crate::valve::ValveId;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// The causes worth checking as what must be settled first.
pub(super) fn findings(told: &Told<'_>, found: &Diagnosis) -> Vec<JointFinding> {
    let worth = found.causes.iter().filter(|c| c.worth_checking);
    worth
        .map(|cause| {
            let spoiled = told.evidence.readings.iter().enumerate();
            JointFinding {
                code: code(cause.cause),
                text: text(told, cause),
                valves: spoiled
                    .filter(|(i, seen)| spoils(told, cause, *i, seen))
                    .map(|(_, seen)| seen.valve)
                    .collect::<Vec<ValveId>>(),
            }
        })
        .collect()
}

/// The odd valves that no cause worth checking explains: one that is about single readings or
/// cylinders accounts for those.
pub(super) fn unexplained<'d>(
    told: &'d Told<'_>,
    found: &'d Diagnosis,
) -> impl Iterator<Item = &'d OddValve> {
    let single = |cause: &&WeighedCause| {
        cause.worth_checking
            && matches!(
                cause.cause,
                ReadingFault::UnitSlipOne
                    | ReadingFault::SwappedOneCylinder
                    | ReadingFault::OneTurnOut
            )
    };
    found.odd_valves.iter().filter(move |odd| {
        let seen = told.evidence.readings.get(odd.reading);
        let explains =
            |cause: &WeighedCause| seen.is_some_and(|seen| spoils(told, cause, odd.reading, seen));
        !found.causes.iter().filter(single).any(explains)
    })
}

/// Whether a cause is about this reading, in any of its likely ways.
fn spoils(told: &Told<'_>, cause: &WeighedCause, place: usize, seen: &Seen) -> bool {
    cause.ways.iter().any(|weighed| match &weighed.way {
        Way::SlipOne { reading, .. } => *reading == place,
        Way::SlipAll { inches, .. } => seen.in_inches() == *inches,
        Way::SwappedCylinder(cylinder) => seen.valve.cylinder == *cylinder,
        Way::WrongStroke(i) => {
            let out = told.evidence.one_turn_out.get(*i);
            out.is_some_and(|out| out.lifted.contains(&seen.valve))
        }
        _ => true,
    })
}

const fn code(cause: ReadingFault) -> StopWorkCode {
    match cause {
        ReadingFault::UnitSlipOne | ReadingFault::UnitSlipAll => StopWorkCode::WrongUnit,
        ReadingFault::SwappedAll | ReadingFault::SwappedOneCylinder => StopWorkCode::Exchanged,
        ReadingFault::OtherSpecification => StopWorkCode::OtherBook,
        ReadingFault::OneTurnOut => StopWorkCode::CrankElsewhere,
        ReadingFault::NotCold => StopWorkCode::NotAtReference,
        ReadingFault::Several => StopWorkCode::Several,
    }
}

/// What was found, where, and what to do about it.
fn text(told: &Told<'_>, cause: &WeighedCause) -> String {
    let place = match cause.ways.as_slice() {
        [only] => format!(": {}", words::way(told, &only.way)),
        _ => String::new(),
    };
    format!(
        "{}{place}; {}",
        words::cause(cause.cause),
        settle(cause.cause)
    )
}

/// How a cause is settled.
const fn settle(cause: ReadingFault) -> &'static str {
    match cause {
        ReadingFault::UnitSlipOne | ReadingFault::UnitSlipAll => {
            "compare the numbers with the marks on the leaves, and read one valve again"
        }
        ReadingFault::SwappedAll | ReadingFault::SwappedOneCylinder => {
            "follow the ports to see which valve is intake and which exhaust, and read two again"
        }
        ReadingFault::OtherSpecification => {
            "find out which book is for this engine, and which it was last set to"
        }
        ReadingFault::OneTurnOut => {
            "turn the crank one full turn on, see that both rockers of the cylinder are free, and read again"
        }
        ReadingFault::NotCold => {
            "let the engine come to the temperature the book asks for, and read again"
        }
        ReadingFault::Several => {
            "read all again, one valve at a time, each with its cylinder at firing TDC, before anything is set"
        }
    }
}
