//! Leak-down on the sheet.

use super::LeakDownReport;
use crate::job::page::wrap;
use crate::job::work::write_advice;
use alloc::format;
use alloc::string::String;

/// Writes it.
pub(in crate::job::condition) fn write(out: &mut String, found: &LeakDownReport) {
    wrap::write(out, "", &format!("Leak-down: {}", found.verdict_text));
    if let Some(text) = &found.turning_text {
        wrap::write(out, "  ! ", text);
    }
    if let Some(text) = &found.provisional {
        wrap::write(out, "  provisional: ", text);
    }
    for one in &found.cylinders {
        wrap::write(out, &format!("  {}: ", one.name), &one.text);
    }
    if !found.not_read.is_empty() {
        wrap::write(out, "  not read: ", &found.not_read.join(", "));
        wrap::room(out, "found");
    }
    write_advice(out, &found.advice);
}
