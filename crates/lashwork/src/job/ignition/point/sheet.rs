//! An ignition point on the sheet.

use super::{FlashReport, IgnitionPointReport};
use crate::job::page::wrap;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Writes it.
pub(in crate::job::ignition) fn write(out: &mut String, found: &IgnitionPointReport) {
    let head = format!("{}, the surest way first:", found.at.show(1));
    wrap::write(out, "", &head);
    for way in &found.ways {
        wrap::write(out, "  - ", &way.text);
    }
    if let Some(pair) = &found.pair {
        wrap::write(out, "  ", pair);
    }
    flashes(out, &found.flashes);
}

/// The flashes, those at one place of the rim together.
fn flashes(out: &mut String, all: &[FlashReport]) {
    let mut told: Vec<(String, String)> = Vec::new();
    for flash in all {
        let whose = if flash.is_wasted {
            format!("{} at overlap", flash.cylinder)
        } else {
            flash.cylinder.clone()
        };
        let place = flash.place.clone();
        match told.iter_mut().find(|(_, at)| *at == place) {
            Some((lamps, _)) => {
                lamps.push_str(", ");
                lamps.push_str(&whose);
            }
            None => told.push((whose, place)),
        }
    }
    for (lamps, place) in told {
        wrap::write(out, "  ", &format!("lamp on {lamps}: {place}"));
    }
}
