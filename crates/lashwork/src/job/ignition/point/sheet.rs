//! An ignition point on the sheet.

use super::IgnitionPointReport;
use crate::job::page::wrap;
use alloc::format;
use alloc::string::String;

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
    for flash in &found.flashes {
        wrap::write(out, "  ", &flash.text);
    }
}
