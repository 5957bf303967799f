//! The outcome in a sentence, what tells tied causes apart, and what these readings cannot tell.

use super::{Told, words};
use crate::diagnosis::{Diagnosis, ReadingFault, Status, limits_of_report};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// One sentence for the whole.
pub(super) fn summary(told: &Told<'_>, found: &Diagnosis, believed: &str) -> String {
    let count = told.evidence.readings.len();
    let probable = words::probable(found);
    match found.status {
        Status::TooFewReadings => {
            let few = if count == 1 {
                String::from("1 reading is")
            } else {
                format!("{count} readings are")
            };
            format!("{few} too few to judge all together: 4 are needed")
        }
        Status::TooManyReadings => format!("{count} readings are more than can be judged together"),
        Status::NothingSpecial if is_off_reference(told) => format!(
            "no systematic fault found, but the metal is not at the temperature of {believed}, which may \
             hide one"
        ),
        Status::NothingSpecial => {
            format!(
                "no systematic fault found: {believed} fits the readings as well as any other explanation considered"
            )
        }
        Status::OddValves => String::from(
            "no systematic fault stands out, but single valves are far from the rest of their kind: \
             find out why before they are set",
        ),
        Status::Undecided if probable.is_some() => {
            let probable = probable.map_or("", |c| words::cause(c.cause));
            format!(
                "undecided, but probably {probable}: more or finer readings would help to decide"
            )
        }
        Status::Undecided if !found.kinds_off.is_empty() => {
            let off = found.kinds_off.iter();
            let kinds: Vec<String> = off.map(|kind| words::kind_off(told, kind)).collect();
            format!(
                "undecided: {}, and no single cause stands out",
                kinds.join(" and ")
            )
        }
        Status::Undecided => {
            let best = found.causes.first().map_or("", |c| words::cause(c.cause));
            let (at_most, _) = limits_of_report();
            format!(
                "undecided: there may be a systematic fault, most probably {best}, but the chance \
                 of a fault is below the {} % at which it is reported; more or finer readings would \
                 help to decide",
                100.0 - 100.0 * at_most
            )
        }
        Status::WorthChecking => {
            let worth = found.causes.iter().filter(|c| c.worth_checking);
            let names: Vec<&str> = worth.map(|c| words::cause(c.cause)).collect();
            let tied = if names.len() > 1 {
                " (the readings alone cannot tell which)"
            } else {
                ""
            };
            format!("worth checking: {}{tied}", names.join("; or "))
        }
    }
}

/// What tells tied causes apart: the easiest check that decides about one of them.
pub(super) fn tell_apart(found: &Diagnosis) -> String {
    let worth = found.causes.iter().filter(|c| c.worth_checking);
    let tied: Vec<ReadingFault> = worth.map(|c| c.cause).collect();
    let (first, check, otherwise) = EASIEST
        .into_iter()
        .find(|(cause, ..)| tied.contains(cause))
        .unwrap_or(LAST);
    let others = tied.iter().filter(|cause| **cause != first);
    let others: Vec<&str> = others.map(|cause| words::cause(*cause)).collect();
    format!(
        "To tell which: {check}; {otherwise}, it is {}",
        others.join(" or ")
    )
}

/// A check that decides about a cause, and the outcome that rules it out; the easiest first.
const EASIEST: [(ReadingFault, &str, &str); 5] = [
    (
        ReadingFault::NotCold,
        "take the temperature of the metal by the valves",
        "if it is what was assumed",
    ),
    (
        ReadingFault::SwappedAll,
        "follow the ports of one cylinder to see which valve is intake and which exhaust",
        "if they are as written down and as the valves were last set",
    ),
    (
        ReadingFault::SwappedOneCylinder,
        "follow the ports of that cylinder to see which valve is intake and which exhaust",
        "if they are as written down and as the valves were last set",
    ),
    (
        ReadingFault::OneTurnOut,
        "turn the crank one full turn on and feel whether both rockers of the cylinder are free",
        "if they were free before and are not now",
    ),
    (
        ReadingFault::OtherSpecification,
        "compare the engine's number and plate with both books",
        "if it is the book assumed",
    ),
];

/// The same where none of those is among them.
const LAST: (ReadingFault, &str, &str) = (
    ReadingFault::UnitSlipOne,
    "read that valve once more and compare the number with the marks on the leaves",
    "if it reads the same",
);

/// Whether the readings cannot be held against the assumed specification.
fn is_off_reference(told: &Told<'_>) -> bool {
    let believed = told.books.first();
    believed.is_some_and(|book| book.not_at_reference().is_some())
}

/// What was not weighed, and why.
pub(super) fn cannot_tell(told: &Told<'_>, found: &Diagnosis) -> Vec<String> {
    if matches!(
        found.status,
        Status::TooFewReadings | Status::TooManyReadings
    ) {
        return Vec::new();
    }
    let why = |cause: &ReadingFault| match cause {
        ReadingFault::SwappedAll => {
            "intake and exhaust are set to nearly the same value, so it would not show"
        }
        ReadingFault::SwappedOneCylinder => {
            "only one cylinder was read, or intake and exhaust are set to nearly the same value, so it would not show"
        }
        ReadingFault::OtherSpecification => "no other specification with other limits is given",
        ReadingFault::OneTurnOut => "no valve that was read would leave its base circle",
        ReadingFault::NotCold => {
            "temperature changes these lashes by less than their ordinary drift"
        }
        _ => "the readings do not show it",
    };
    let mut lines: Vec<String> = found
        .not_weighed
        .iter()
        .map(|c| format!("{}: {}", words::cause(*c), why(c)))
        .collect();
    let given = told.asked.books.len();
    let weighed = told.books.len();
    if weighed < given {
        let left = given - weighed;
        lines.push(format!(
            "specifications: {left} not considered, their reference temperature lies outside the material data"
        ));
    }
    lines
}
