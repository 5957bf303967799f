//! Idle on the sheet.

use super::IdleReport;
use crate::job::page::wrap;
use crate::job::work::write_advice;
use alloc::format;
use alloc::string::String;

/// Writes it.
pub(in crate::job::mixture) fn write(out: &mut String, found: &IdleReport) {
    wrap::write(out, "", &format!("Idle: {}", found.verdict_text));
    if let Some(rise) = &found.rise {
        wrap::write(out, "  ", &rise.text);
        for one in &rise.by_rules {
            wrap::write(out, "    ", &one.text);
        }
    }
    write_advice(out, &found.advice);
}
