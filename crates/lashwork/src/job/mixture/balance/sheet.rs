//! Balance on the sheet.

use super::BalanceReport;
use crate::job::page::wrap;
use alloc::format;
use alloc::string::String;

/// Writes it.
pub(in crate::job::mixture) fn write(out: &mut String, found: &BalanceReport) {
    wrap::write(out, "", &format!("Balance: {}", found.verdict_text));
    for one in &found.throttles {
        let verdict = one
            .judged
            .as_ref()
            .map(|judged| format!(": {}", judged.verdict_text));
        let text = format!("{}{}", one.text, verdict.unwrap_or_default());
        wrap::write(out, "  ", &text);
    }
    for one in &found.shafts {
        wrap::write(out, "  ", &one.text);
    }
    for one in &found.cylinders {
        wrap::write(out, "  ", &one.text);
    }
    for text in found.advice.lines() {
        wrap::write(out, "  > ", &text);
    }
    if let Some(next) = &found.next {
        wrap::write(out, "  next reading: ", next);
    }
}
