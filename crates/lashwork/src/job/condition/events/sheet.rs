//! Valve events on the sheet.

use super::EventsReport;
use crate::job::page::wrap;
use alloc::format;
use alloc::string::String;

/// Writes it.
pub(in crate::job::condition) fn write(out: &mut String, found: &EventsReport) {
    wrap::write(out, "", &format!("Valve events: {}", found.verdict_text));
    if let Some(text) = &found.provisional {
        wrap::write(out, "  provisional: ", text);
    }
    for one in &found.cylinders {
        wrap::write(out, &format!("  {}: ", one.name), &one.text);
        if let Some(text) = &one.set_text {
            wrap::write(out, "      ", text);
        }
    }
    if let Some(more) = &found.more {
        wrap::write(out, "  ", &more.text);
    }
    for text in &found.not_told {
        wrap::write(out, "  not told: ", text);
    }
}
