//! The vacuum gauge on the sheet.

use super::GaugeReport;
use crate::job::page::wrap;
use crate::job::text::percent;
use crate::job::work::WorkAdvice;
use alloc::format;
use alloc::string::String;

/// Writes it.
pub(in crate::job::mixture) fn write(out: &mut String, found: &GaugeReport) {
    wrap::write(out, "", &format!("Vacuum gauge: {}", found.verdict_text));
    if let Some(text) = &found.level_text {
        wrap::write(out, "  ", text);
    }
    for one in &found.causes {
        let lead = format!("  {:>5} ", percent(one.probability));
        wrap::write(out, &lead, one.text);
    }
    for text in found.advice.lines() {
        wrap::write(out, "  > ", &text);
    }
    // Where that is what to do, it was said.
    let is_said = matches!(found.advice, WorkAdvice::Measure { .. });
    if let Some(next) = found.next.as_ref().filter(|_| !is_said) {
        wrap::write(out, "  next look: ", next.text);
    }
}
