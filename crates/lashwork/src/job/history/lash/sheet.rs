//! Seats that may sink, on the sheet.

use super::seats::RecessionReport;
use crate::job::page::wrap;
use alloc::string::String;
use alloc::vec::Vec;

/// Writes what speaks for it and against; what was published of it only where it is not `is_short`.
pub(in crate::job::history) fn write(out: &mut String, found: &RecessionReport, is_short: bool) {
    wrap::write(out, "", &found.text);
    let none = Vec::new();
    let published = if is_short { &none } else { &found.published };
    let parts: [(&str, &Vec<&str>); 4] = [
        ("    for: ", &found.for_text),
        ("    against: ", &found.against_text),
        ("    not known: ", &found.not_known_text),
        ("    published: ", published),
    ];
    for (lead, all) in parts {
        if !all.is_empty() {
            wrap::write(out, lead, &all.join("; "));
        }
    }
}
