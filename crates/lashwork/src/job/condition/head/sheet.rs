//! The head's bolts on the sheet.

use super::HeadReport;
use crate::job::page::wrap;
use crate::job::work::write_advice;
use alloc::format;
use alloc::string::String;

/// Writes it.
pub(in crate::job::condition) fn write(out: &mut String, found: &HeadReport) {
    wrap::write(out, "", &format!("Head bolts: {}", found.verdict_text));
    for text in found.order_text.iter().chain(&found.order_faults) {
        wrap::write(out, "  ", text);
    }
    for text in found.torque_texts.iter().chain(&found.lash_text) {
        wrap::write(out, "  ", text);
    }
    write_advice(out, &found.advice);
}
