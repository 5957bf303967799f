//! Cranking compression on the sheet.

use super::CompressionReport;
use crate::job::page::wrap;
use crate::job::work::{write_advice, write_further};
use alloc::format;
use alloc::string::String;

/// Writes it.
pub(in crate::job::condition) fn write(out: &mut String, found: &CompressionReport) {
    wrap::write(out, "", &format!("Compression: {}", found.verdict_text));
    if let Some(text) = &found.provisional {
        wrap::write(out, "  provisional: ", text);
    }
    for text in &found.fault_texts {
        wrap::write(out, "  cranking: ", text);
    }
    wrap::write(out, "  ", &found.level_text);
    for one in &found.cylinders {
        wrap::write(out, &format!("  {}: ", one.name), &one.text);
        if let Some(text) = &one.oil_text {
            wrap::write(out, "      oil: ", text);
        }
    }
    for one in &found.gaskets {
        wrap::write(out, "  ", &one.text);
    }
    for one in &found.rules {
        wrap::write(out, "  rule: ", &one.text);
    }
    if !found.not_read.is_empty() {
        wrap::write(out, "  not read: ", &found.not_read.join(", "));
        wrap::room(out, "found");
    }
    write_advice(out, &found.advice);
    if let Some(next) = &found.next {
        write_further(out, "  next look: ", &next.text, &found.advice);
    }
}
