//! The vacuum gauge on the sheet.

use super::GaugeReport;
use crate::job::page::wrap;
use crate::job::text::percent;
use crate::job::work::{write_advice, write_further};
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
    write_advice(out, &found.advice);
    if let Some(next) = &found.next {
        write_further(out, "  next look: ", next.text, &found.advice);
    }
}
