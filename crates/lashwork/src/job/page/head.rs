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
    let may_apply = |s: &&SpecificationReport| s.applicability != Applicability::DoesNotApply;
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
    let at = degrees(book.reference.celsius());
    wrap::write(
        out,
        &format!("[{}] ", book.id),
        &format!("{}, at {at} C", book.provenance),
    );
    wrap::write(out, "    intake:  ", &book.intake);
    wrap::write(out, "    exhaust: ", &book.exhaust);
}
