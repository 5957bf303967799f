//! Dead centres and cam ring on the job sheet.

use super::line;
use crate::job::{DeadCentreReport, EngineReport};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Writes what rods and cam ring were described; nothing if none were.
pub(super) fn write(out: &mut String, engine: &EngineReport) {
    if let Some(ring) = &engine.cam_ring {
        line(
            out,
            &format!("cam ring: {}; goes with the firing order", ring.text),
        );
    }
    if engine.dead_centres.is_empty() {
        return;
    }
    line(
        out,
        "where the pistons turn round, in crank deg past the line of the bore:",
    );
    let mut groups: Vec<(String, Vec<&str>)> = Vec::new();
    for centre in &engine.dead_centres {
        let text = words(centre);
        match groups.iter_mut().find(|(known, _)| *known == text) {
            Some((_, cylinders)) => cylinders.push(&centre.cylinder),
            None => groups.push((text, Vec::from([centre.cylinder.as_str()]))),
        }
    }
    for (text, cylinders) in groups {
        line(out, &format!("    {text}: {}", cylinders.join(", ")));
    }
}

fn words(centre: &DeadCentreReport) -> String {
    format!(
        "top {}, bottom {}, stroke {:.2} mm",
        signed(centre.shift.degrees()),
        signed(centre.bottom_shift.degrees()),
        centre.stroke.mm()
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
