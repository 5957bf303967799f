//! Causes, ways and kinds in words.

use super::{Told, source_id, valve_at};
use crate::clearance::text::printed;
use crate::diagnosis::{
    Diagnosis, KindOff, PROBABLY, ReadingFault, Seen, Slip, Way, WeighedCause, Whole,
};
use crate::quantity::Lash;
use crate::quantity::shown::by_hand;
use crate::valve::ValveKind;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// A kind far from its set value as a whole.
pub(super) fn kind_off(told: &Told<'_>, kind: &KindOff) -> String {
    let way = if kind.off.mm() > 0.0 {
        "looser"
    } else {
        "tighter"
    };
    format!(
        "{} valves as a whole are about {} {way} than the value to set",
        kind.kind.word(),
        by_hand(kind.off.mm().abs(), told.asked.shown.inches)
    )
}

/// The cause that is more probable than all else together, if one is.
pub(super) fn probable(found: &Diagnosis) -> Option<&WeighedCause> {
    found.causes.first().filter(|c| c.posterior > PROBABLY)
}

/// A kind of cause.
pub(super) const fn cause(cause: ReadingFault) -> &'static str {
    match cause {
        ReadingFault::UnitSlipOne => "one number in the wrong unit",
        ReadingFault::UnitSlipAll => "all numbers in the wrong unit",
        ReadingFault::SwappedAll => "intake and exhaust swapped",
        ReadingFault::SwappedOneCylinder => "intake and exhaust swapped in one cylinder",
        ReadingFault::OtherSpecification => "another specification fits better",
        ReadingFault::OneTurnOut => {
            "crank 360 degrees out (wrong stroke) when the readings were taken"
        }
        ReadingFault::NotCold => "metal not at the assumed temperature",
        ReadingFault::Several => "more than one thing",
    }
}

/// One way in which a cause may be at work.
pub(super) fn way(told: &Told<'_>, way: &Way) -> String {
    match way {
        Way::SlipOne { reading, slip } => {
            let inches = told
                .evidence
                .readings
                .get(*reading)
                .is_some_and(Seen::in_inches);
            format!("{}: {}", valve_at(told, *reading), slipped(*slip, inches))
        }
        Way::SlipAll { inches, slip } => slipped(*slip, *inches).to_string(),
        Way::SetAll { wider: true } => {
            "all valves set 2.54 times too wide: thousandths of an inch where hundredths of a \
             millimetre were meant"
                .to_string()
        }
        Way::SetAll { wider: false } => {
            "all valves set 2.54 times too tight: hundredths of a millimetre where thousandths of an \
             inch were meant"
                .to_string()
        }
        Way::SwappedAll => {
            "in all cylinders; readings swapped when written down, or valves set the wrong way round".to_string()
        }
        Way::SwappedCylinder(c) => {
            let label = told
                .asked
                .names
                .engine
                .cylinder(*c)
                .map(|c| c.label.as_str());
            let label = label.unwrap_or("?");
            format!(
                "in cylinder {label}; readings swapped when written down, or valves set the wrong \
                 way round"
            )
        }
        Way::OtherSource(_) => {
            let id = source_id(told, way);
            format!("the readings follow {id}: check which specification is for this engine, and which it was last set to")
        }
        Way::WrongStroke(i) => told
            .evidence
            .one_turn_out
            .get(*i)
            .map_or_else(String::new, |out| {
                let label = out
                    .cylinder
                    .and_then(|c| told.asked.names.engine.cylinder(c));
                match (label, out.two_position) {
                    (Some(c), _) => format!("at the stop for cylinder {}", c.label),
                    (None, true) => "at both stops of the two-position table".to_string(),
                    (None, false) => "at every stop".to_string(),
                }
            }),
        Way::NotCold(shift) => {
            let by = told.asked.shown.signed(shift.mm());
            format!("all valves have shifted alike, by about {by}; or all were set, or have worn, by that much")
        }
        Way::Two([first, second]) => {
            format!("{}; and {}", part(told, *first), part(told, *second))
        }
        Way::Disarray => {
            "no single cause that was considered explains the readings together".to_string()
        }
    }
}

/// One of two things at once, with its place.
fn part(told: &Told<'_>, part: Whole) -> String {
    let alone = part.way();
    match part {
        Whole::Shifted(_) => way(told, &alone),
        _ => format!("{}, {}", cause(alone.cause()), way(told, &alone)),
    }
}

/// What slipped.
const fn slipped(slip: Slip, inches: bool) -> &'static str {
    match (slip, inches) {
        (Slip::SameNumber, false) => "inches written as millimetres",
        (Slip::SameNumber, true) => "millimetres written as inches",
        (Slip::ThousandthsHundredths, false) => {
            "thousandths of an inch taken for hundredths of a millimetre when written down"
        }
        (Slip::ThousandthsHundredths, true) => {
            "hundredths of a millimetre taken for thousandths of an inch when written down"
        }
    }
}

/// What a way makes of a reading.
pub(super) fn under(told: &Told<'_>, way: &Way, seen: &Seen) -> String {
    let kind = seen.valve.kind;
    let set = |source: usize, kind: ValveKind| {
        let found = told.evidence.sources.get(source);
        let inches = told.asked.shown.inches;
        found.map_or_else(String::new, |s| printed(s.limits(kind).set_to(), inches))
    };
    let own = || format!("set value {}", set(0, kind));
    match way {
        Way::SlipOne { reading, slip } => {
            let slipped = told.evidence.readings.get(*reading) == Some(seen);
            slipped
                .then(|| scaled(told, seen, *slip))
                .map_or_else(own, |gap| {
                    format!("would be {gap}; set value {}", set(0, kind))
                })
        }
        Way::SlipAll { inches, slip } if seen.in_inches() == *inches => {
            format!(
                "would be {}; set value {}",
                scaled(told, seen, *slip),
                set(0, kind)
            )
        }
        Way::SwappedAll => exchanged(kind, &set),
        Way::SwappedCylinder(c) if *c == seen.valve.cylinder => exchanged(kind, &set),
        Way::OtherSource(i) => format!("{} sets {}", source_id(told, way), set(*i, kind)),
        Way::WrongStroke(i)
            if told
                .evidence
                .one_turn_out
                .get(*i)
                .is_some_and(|out| out.lifted.contains(&seen.valve)) =>
        {
            "off its base circle: no gap".to_string()
        }
        Way::SetAll { wider } => format!(
            "{} {}",
            if *wider {
                "2.54 times its"
            } else {
                "1/2.54 of its"
            },
            own()
        ),
        Way::NotCold(shift) => {
            let back = seen
                .felt
                .shifted(-*shift, crate::tolerance::Uncertainty::ZERO);
            format!(
                "would be {}; set value {}",
                gap(told, (back.low(), back.high()), 1.0),
                set(0, kind)
            )
        }
        Way::Two(parts) => {
            let each = parts.map(|part| under(told, &part.way(), seen));
            let told: Vec<String> = each.into_iter().filter(|text| *text != own()).collect();
            if told.is_empty() {
                own()
            } else {
                told.join("; ")
            }
        }
        _ => own(),
    }
}

fn exchanged(kind: ValveKind, set: &dyn Fn(usize, ValveKind) -> String) -> String {
    match kind {
        ValveKind::Intake => format!("exhaust valves are set to {}", set(0, ValveKind::Exhaust)),
        ValveKind::Exhaust => format!("intake valves are set to {}", set(0, ValveKind::Intake)),
    }
}

fn scaled(told: &Told<'_>, seen: &Seen, slip: Slip) -> String {
    gap(
        told,
        (seen.felt.low(), seen.felt.high()),
        slip.factor(seen.marked_in),
    )
}

fn gap(told: &Told<'_>, ends: (Option<Lash>, Option<Lash>), factor: f64) -> String {
    let show = |lash: Lash| by_hand(lash.mm() * factor, told.asked.shown.inches);
    match ends {
        (Some(a), Some(b)) if a < b => format!("{} to {}", show(a), show(b)),
        (Some(a), Some(_)) => show(a),
        (Some(a), None) => format!("at least {}", show(a)),
        (None, Some(b)) => format!("less than {}", show(b)),
        (None, None) => String::from("anything"),
    }
}
