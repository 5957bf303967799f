//! The engine on the sheet.

use super::answer::{DeadCentreReport, EngineReport};
use crate::engine::Sense;
use crate::job::text::{degrees, end_word, line, rim_mark, section, whole_degrees};
use crate::quantity::Cycle;
use crate::quantity::shown::travel;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Writes the section. `alone` where no other step is asked for: then where each cylinder fires is
/// said here, and not at the stops.
pub(in crate::job) fn write(out: &mut String, engine: &EngineReport, alone: bool, inches: bool) {
    section(out, "Engine");
    let cycle = match engine.cycle {
        Cycle::TwoStroke => "two-stroke",
        Cycle::FourStroke => "four-stroke",
    };
    let sense = match engine.rotation.sense {
        Sense::Clockwise => "clockwise",
        Sense::Anticlockwise => "anticlockwise",
    };
    let cylinders = match engine.firing_order.len() {
        1 => String::from("1 cylinder"),
        n => format!("{n} cylinders"),
    };
    let end = end_word(engine.rotation.seen_from);
    line(
        out,
        &format!("{cycle}, {cylinders}, turns {sense} seen from the {end}"),
    );
    if let Some(number) = engine.number {
        line(out, &format!("engine number {number}"));
    }
    line(out, &format!("numbering: {}", engine.numbering));
    line(
        out,
        &format!("firing order {}", engine.firing_order.join("-")),
    );
    let intervals: Vec<String> = engine
        .intervals
        .iter()
        .map(|i| degrees(i.degrees()))
        .collect();
    line(out, &firing_intervals(&intervals));
    crank_train(out, engine, inches);
    if alone {
        firing(out, engine, inches);
    }
}

/// Even firing is said in words; the list is for the eye only where it differs.
fn firing_intervals(shown: &[String]) -> String {
    match shown {
        [only] => format!("fires every {only} deg"),
        [first, rest @ ..] if rest.iter().all(|other| other == first) => {
            format!("even firing, every {first} deg")
        }
        _ => format!("firing intervals {} deg", shown.join(" ")),
    }
}

/// Where everything is as each cylinder fires.
fn firing(out: &mut String, engine: &EngineReport, inches: bool) {
    line(
        out,
        "each cylinder's firing top dead centre, in crank degrees after the first firing:",
    );
    for fires in &engine.firing {
        let mark = fires
            .pulley_mark_mm
            .map(|mm| format!(", {}", rim_mark(mm, inches)));
        let companion = fires.companion.as_ref().map(|c| format!(", companion {c}"));
        line(
            out,
            &format!(
                "    {}: {} deg, rotor {} deg{}{}",
                fires.cylinder,
                whole_degrees(fires.top.degrees()),
                whole_degrees(fires.rotor.degrees()),
                mark.unwrap_or_default(),
                companion.unwrap_or_default()
            ),
        );
    }
    if let Some(text) = &engine.pulley_marks {
        line(out, text);
    }
}

/// What rods and cam ring were described; nothing if none were.
fn crank_train(out: &mut String, engine: &EngineReport, inches: bool) {
    if let Some(ring) = &engine.cam_ring {
        line(
            out,
            &format!("cam ring: {}; agrees with the firing order", ring.text),
        );
    }
    if engine.dead_centres.is_empty() {
        return;
    }
    line(
        out,
        "dead centres, in crank degrees past the line of the bore:",
    );
    let mut groups: Vec<(String, Vec<&str>)> = Vec::new();
    for centre in &engine.dead_centres {
        let text = words(centre, inches);
        match groups.iter_mut().find(|(known, _)| *known == text) {
            Some((_, cylinders)) => cylinders.push(&centre.cylinder),
            None => groups.push((text, Vec::from([centre.cylinder.as_str()]))),
        }
    }
    for (text, cylinders) in groups {
        line(out, &format!("    {text}: {}", cylinders.join(", ")));
    }
}

fn words(centre: &DeadCentreReport, inches: bool) -> String {
    format!(
        "top {}, bottom {}, stroke {}",
        signed(centre.shift.degrees()),
        signed(centre.bottom_shift.degrees()),
        travel(centre.stroke.mm(), inches)
    )
}

/// Two decimals with a sign, and none where nothing is left of the number.
fn signed(degrees: f64) -> String {
    let text = format!("{degrees:+.2}");
    if text.contains(|c: char| ('1'..='9').contains(&c)) {
        text
    } else {
        String::from("0.00")
    }
}
