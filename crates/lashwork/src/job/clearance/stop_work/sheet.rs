//! What must be settled first, at the top of the sheet.

use super::answer::StopWorkReport;
use crate::job::text::line;
use alloc::format;
use alloc::string::String;

/// Most valves named one by one.
const NAMED: usize = 4;

/// Writes one block; nothing where nothing stands in the way.
pub(in crate::job) fn write(out: &mut String, found: &[StopWorkReport]) {
    for one in found {
        line(out, &format!("STOP WORK: {}", one.text));
        match one.valves.len() {
            0 => {}
            n if n <= NAMED => {
                let names = one.valves.join(", ");
                line(out, &format!("    no number for {names} until then"));
            }
            n => line(out, &format!("    no number for {n} valves until then")),
        }
    }
}
