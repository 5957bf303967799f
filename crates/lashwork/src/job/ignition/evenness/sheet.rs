//! Evenness on the sheet.

use super::EvennessReport;
use crate::job::page::wrap;
use crate::job::text::percent;
use crate::job::work::write_advice;
use alloc::format;
use alloc::string::String;

/// Writes it.
pub(in crate::job::ignition) fn write(out: &mut String, found: &EvennessReport) {
    wrap::write(out, "", &format!("Evenness: {}", found.verdict_text));
    for text in &found.first {
        wrap::write(out, "  ", &format!("first make sure: {text}"));
    }
    let lobes = found.lobes.iter().map(|lobe| &lobe.judged);
    for one in lobes.chain(&found.mean) {
        let text = format!("{}, {}: {}", one.found, one.limits, one.verdict_text);
        wrap::write(out, "  ", &text);
    }
    for text in &found.parts {
        wrap::write(out, "  ", text);
    }
    for group in &found.explanations {
        let lead = format!("  {:>5} ", percent(group.probability));
        wrap::write(out, &lead, &group.text);
    }
    for text in &found.looks {
        wrap::write(out, "  would tell: ", text);
    }
    write_advice(out, &found.advice);
}
