//! Top of the page: which job, what has to be settled first, what the books ask for, what can hurt.

use super::wrap;
use crate::job::clearance::{ClearanceReport, SpecificationReport};
use crate::job::report::Report;
use crate::job::text::degrees;
use crate::valve::Applicability;
use alloc::format;
use alloc::string::String;

pub(super) fn write(out: &mut String, report: &Report, found: &ClearanceReport) {
    let title = report.title.as_deref().unwrap_or("untitled engine");
    wrap::write(out, "", &format!("VALVE CLEARANCES: {title}"));
    if let Some(note) = &report.note {
        wrap::write(out, "Note: ", note);
    }
    let may_apply = |s: &&SpecificationReport| {
        s.applicability != Applicability::DoesNotApply && s.used_instead.is_none()
    };
    for book in found.specifications.iter().filter(may_apply) {
        specification(out, book);
    }
    for metal in &found.warmth.metal {
        wrap::write(out, "", metal);
    }
    for caution in &report.cautions {
        wrap::write(out, "! ", caution);
    }
}

fn specification(out: &mut String, book: &SpecificationReport) {
    let at = book.reference.map_or_else(
        || String::from("hot, temperature not stated"),
        |reference| format!("at {} C", degrees(reference.celsius())),
    );
    wrap::write(
        out,
        &format!("[{}] ", book.id),
        &format!("{}, {at}", book.provenance),
    );
    if let Some(off) = &book.not_at_reference {
        wrap::write(out, "! ", &off.text());
    }
    wrap::write(out, "    intake:  ", &book.intake);
    wrap::write(out, "    exhaust: ", &book.exhaust);
}
