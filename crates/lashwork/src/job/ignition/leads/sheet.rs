//! Leads and distributor drive on the sheet.

use super::LeadsReport;
use crate::job::page::wrap;
use crate::job::text::percent;
use alloc::format;
use alloc::string::String;

/// Writes them.
pub(in crate::job::ignition) fn write(out: &mut String, found: &LeadsReport) {
    let head = format!("Leads and distributor drive: {}", found.verdict_text);
    wrap::write(out, "", &head);
    for group in &found.explanations {
        let lead = format!("  {:>5} ", percent(group.probability));
        wrap::write(out, &lead, &group.text);
    }
    for text in found.advice.lines() {
        wrap::write(out, "  > ", &text);
    }
    if let Some(next) = &found.next {
        wrap::write(out, "  next look: ", &next.text);
    }
}
