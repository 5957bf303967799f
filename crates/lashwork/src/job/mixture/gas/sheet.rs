//! The exhaust gas on the sheet.

use super::GasReport;
use crate::job::page::wrap;
use crate::job::work::write_advice;
use alloc::format;
use alloc::string::String;

/// Writes it.
pub(in crate::job::mixture) fn write(out: &mut String, found: &GasReport) {
    wrap::write(out, "", &format!("Exhaust gas: {}", found.verdict_text));
    if let Some(lambda) = &found.lambda {
        wrap::write(out, "  ", &lambda.text);
    }
    for doubt in &found.contradictions {
        wrap::write(out, "  does not fit: ", &doubt.text);
        for one in &doubt.causes {
            wrap::write(out, "    may be: ", &one.text);
        }
    }
    if let Some(co) = found.co_without_air {
        let text = format!(
            "if that air is taken off, CO is {:.1} %: do not set it by the number shown",
            co.percent()
        );
        wrap::write(out, "  ", &text);
    }
    write_advice(out, &found.advice);
}
