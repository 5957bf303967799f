//! Leads and distributor drive on the sheet.

use super::LeadsReport;
use crate::job::page::wrap;
use crate::job::text::percent;
use crate::job::work::{write_advice, write_further};
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
    write_advice(out, &found.advice);
    if let Some(next) = &found.next {
        write_further(out, "  next look: ", &next.text, &found.advice);
    }
}
