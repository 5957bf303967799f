//! Which causes come before any setting, which numbers they spoil, and which odd valves they leave
//! unexplained.

use super::inspections::off_text;
use super::{JointFinding, Told, words};
use crate::clearance::{Advice, causes};
use crate::diagnosis::{Diagnosis, OddValve, ReadingFault, Seen, Status, Way, WeighedCause};
use crate::job::clearance::settle::StopWorkCode;
use crate::valve::ValveId;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// The causes worth checking as what must be settled first.
pub(super) fn findings(told: &Told<'_>, found: &Diagnosis) -> Vec<JointFinding> {
    if found.status == Status::Undecided {
        return Vec::from([undecided(told, found)]);
    }
    let worth = found.causes.iter().filter(|c| c.worth_checking);
    worth.map(|cause| finding(told, cause)).collect()
}

fn finding(told: &Told<'_>, cause: &WeighedCause) -> JointFinding {
    let spoiled = told.evidence.readings.iter().enumerate();
    JointFinding {
        code: code(cause.cause),
        text: text(told, cause),
        valves: spoiled
            .filter(|(i, seen)| spoils(told, cause, *i, seen))
            .map(|(_, seen)| seen.valve)
            .collect::<Vec<ValveId>>(),
    }
}

/// More likely something than nothing: a number is not followed on that.
fn undecided(told: &Told<'_>, found: &Diagnosis) -> JointFinding {
    let valves = told.evidence.readings.iter().map(|r| r.valve).collect();
    if let Some(cause) = words::probable(found) {
        return JointFinding {
            text: format!("probably {}", text(told, cause)),
            valves,
            code: code(cause.cause),
        };
    }
    let kinds: Vec<String> = {
        let off = found.kinds_off.iter();
        off.map(|kind| words::kind_off(told, kind)).collect()
    };
    let what = match kinds.as_slice() {
        [] => String::from("the readings do not fit an ordinary engine"),
        kinds => kinds.join(" and "),
    };
    JointFinding {
        code: StopWorkCode::Several,
        text: format!(
            "{what}, and no cause stands out; {}",
            settle(ReadingFault::Several)
        ),
        valves,
    }
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

/// The odd valves, each with what is advised instead of setting it.
pub(super) fn odd(told: &Told<'_>, found: &Diagnosis) -> Vec<(ValveId, Advice)> {
    unexplained(told, found)
        .filter_map(|odd| {
            let seen = told.evidence.readings.get(odd.reading)?;
            let text = format!("{}: find the cause first", off_text(told, odd));
            let kind = Some(seen.valve.kind);
            let causes = causes(odd.is_looser(), kind, told.asked.adjuster);
            Some((
                seen.valve,
                Advice::FindCause {
                    text,
                    first: Vec::new(),
                    causes,
                },
            ))
        })
        .collect()
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
