//! The air around, on the sheet.

use super::AirAroundReport;
use crate::job::page::wrap;
use alloc::string::String;

/// Writes it.
pub(in crate::job::mixture) fn write(out: &mut String, found: &AirAroundReport) {
    wrap::write(out, "Air: ", &found.text);
    if let Some(doubt) = &found.doubt {
        wrap::write(out, "  ? ", doubt);
    }
}
