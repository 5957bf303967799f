//! What may be the matter, on the sheet.

use super::answer::CausesReport;
use crate::causes::Strength;
use crate::job::page::wrap;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Places that are written.
const PLACES: usize = 3;

/// Writes it.
pub(in crate::job) fn write(out: &mut String, found: &CausesReport) {
    wrap::write(out, "By all that was found: ", &found.verdict_text);
    for own in &found.causes {
        wrap::write(out, &format!("  {:>9} ", own.probability_text), own.text);
        let places: Vec<&str> = own
            .places
            .iter()
            .take(PLACES)
            .map(|at| at.text.as_str())
            .collect();
        wrap::write(out, "        where: ", &places.join(", "));
        let told = own
            .speaks
            .iter()
            .filter(|one| one.strength != Strength::Nothing);
        let told: Vec<&str> = told.map(|one| one.text.as_str()).collect();
        if !told.is_empty() {
            wrap::write(out, "        why: ", &told.join(", "));
        }
    }
    for own in &found.next {
        wrap::write(out, "  next look: ", &own.text);
    }
    if let Some(text) = &found.not_looked_at_text {
        wrap::write(out, "  not looked at: ", text);
    }
    for remark in &found.remarks {
        wrap::write(out, "  not weighed: ", remark);
    }
    wrap::write(out, "  ", found.trust_text);
}
