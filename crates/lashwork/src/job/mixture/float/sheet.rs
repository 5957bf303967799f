//! The fuel level on the sheet.

use super::FloatReport;
use crate::job::page::wrap;
use crate::job::work::write_advice;
use alloc::format;
use alloc::string::String;

/// Writes it.
pub(in crate::job::mixture) fn write(out: &mut String, found: &FloatReport) {
    wrap::write(out, "", &format!("Fuel level: {}", found.verdict_text));
    if let Some(fuel) = &found.fuel {
        wrap::write(out, "  ! ", &fuel.text);
    }
    for one in &found.chambers {
        let judged = &one.judged;
        let text = format!(
            "{}: {}, book {}: {}",
            one.name, judged.found, judged.limits, judged.verdict_text
        );
        wrap::write(out, "  ", &text);
        if let Some(text) = &one.at_jet_text {
            wrap::write(out, "    ", text);
        }
        write_advice(out, &one.advice);
    }
}
