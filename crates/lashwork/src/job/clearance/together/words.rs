//! The diagnosis in words.

use super::{Told, source_id, valve_at};
use crate::clearance::text::printed;
use crate::diagnosis::{
    Diagnosis, KindOff, ReadingFault, Seen, Slip, Status, Way, limits_of_report,
};
use crate::diagnosis::{ODD_BESIDE_FROM, ODD_FROM, UNNOTICED, Warming, warmth_shift};
use crate::quantity::Lash;
use crate::quantity::shown::{by_hand, reckoned};
use crate::valve::ValveKind;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// One sentence for the whole.
pub(super) fn summary(told: &Told<'_>, found: &Diagnosis, believed: &str) -> String {
    let count = told.evidence.readings.len();
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
        Status::Undecided if !found.kinds_off.is_empty() => {
            let kinds: Vec<String> = found
                .kinds_off
                .iter()
                .map(|kind| kind_off(told, kind))
                .collect();
            format!(
                "undecided: {}, and no single cause stands out",
                kinds.join(" and ")
            )
        }
        Status::Undecided => {
            let best = found.causes.first().map_or("", |c| cause(c.cause));
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
            let names: Vec<&str> = worth.map(|c| cause(c.cause)).collect();
            let tied = if names.len() > 1 {
                " (the readings alone cannot tell which)"
            } else {
                ""
            };
            format!("worth checking: {}{tied}", names.join("; or "))
        }
    }
}

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

/// Whether the readings cannot be held against the assumed specification.
fn is_off_reference(told: &Told<'_>) -> bool {
    let believed = told.books.first();
    believed.is_some_and(|book| book.not_at_reference().is_some())
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
        Way::Several => {
            "no single cause that was considered explains the readings together".to_string()
        }
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
        .map(|c| format!("{}: {}", self::cause(*c), why(c)))
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

/// What the model takes, one text for each code's last word.
pub(super) fn assumptions(
    told: &Told<'_>,
    found: &Diagnosis,
    stated: bool,
) -> Vec<(&'static str, String)> {
    let mut all = Vec::new();
    let shown = told.asked.shown;
    let said = |mm| reckoned(mm, shown.inches);
    let (intake, exhaust) = (&found.model.intake, &found.model.exhaust);
    let believed = told
        .books
        .first()
        .map_or("", |b| b.specification.id.as_str());
    let others = match told.books.len() {
        0 | 1 => "",
        _ => "; around the values of another specification just as widely",
    };
    all.push((
        "diagnosis.model",
        format!(
            "readings taken together: by {believed}, intake valves are assumed to lie about {} \
             with a spread of {}, exhaust about {} with {}, or 1.5 to 3.4 times that \
             as the readings show (here {:.1} times), {} % of them twice as wide, each kind with a \
             common drift of {}{others}; a valve {ODD_FROM} spreads or more from the middle of \
             its kind is named as odd, and beside another from {ODD_BESIDE_FROM} on if its reading lies \
             outside the band in which it may be left; a kind whose middle is {ODD_FROM} spreads or more \
             from its set value is not taken as ordinary",
            said(intake.set_to_mm),
            said(intake.spread_mm),
            said(exhaust.set_to_mm),
            said(exhaust.spread_mm),
            found.spread_times,
            found.model.worn_share * 100.0,
            said(found.model.drift_mm)
        ),
    ));
    if !stated {
        let prior = told.evidence.prior.value();
        let (at_most, _) = limits_of_report();
        all.push((
            "diagnosis.prior",
            format!(
                "probability of a systematic fault not stated: {prior} taken; causes are reported \
                 when the probability of no systematic fault falls to {at_most} or less"
            ),
        ));
    }
    if !found.not_weighed.contains(&ReadingFault::OneTurnOut) {
        all.push((
            "diagnosis.stops",
            String::from(
                "for a crank 360 degrees out, valves are assumed to have been read at their cylinder's \
                 firing TDC or by the two-position table",
            ),
        ));
    }
    let (mean, spread) = warmth_shift(told.evidence.warming);
    let unnoticed = UNNOTICED.show(shown.temperature);
    all.push((
        "diagnosis.warmth",
        match told.evidence.warming {
            Warming::Known(_) => format!(
                "an engine {unnoticed} warmer than noticed would change the lash by \
                 {}, spread {}",
                shown.signed(mean),
                said(spread)
            ),
            Warming::Unknown(_) => {
                format!(
                    "an engine {unnoticed} warmer than noticed is assumed to change all lashes by \
                     {}, at most {}, either way",
                    said(spread),
                    said(2.0 * spread)
                )
            }
        },
    ));
    all
}
