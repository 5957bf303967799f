//! The report as plain text, the same bytes for the same report.

use super::report::Report;
use super::text::{line, section};
use super::{clearance, engine};
use alloc::format;
use alloc::string::String;

impl Report {
    /// The report as a plain job sheet, the same bytes for the same report.
    #[must_use]
    pub fn sheet(&self) -> String {
        sheet(self)
    }
}

fn sheet(report: &Report) -> String {
    let title = report.title.as_deref().unwrap_or("untitled engine");
    let mut out = format!("JOB SHEET: {title}\n");
    if let Some(note) = &report.note {
        line(&mut out, &format!("Note: {note}"));
    }
    let record = report.record.line();
    if !record.is_empty() {
        line(&mut out, &format!("Record: {record}"));
    }
    if let Some(found) = &report.clearance {
        clearance::sheet::first(&mut out, found);
    }
    section(&mut out, "Cautions");
    for caution in &report.cautions {
        line(&mut out, &format!("! {caution}"));
    }
    engine::sheet::write(&mut out, &report.engine, report.clearance.is_none());
    if let Some(found) = &report.clearance {
        clearance::sheet::write(&mut out, found);
    }
    section(&mut out, "Assumptions made");
    if report.assumptions.is_empty() {
        line(&mut out, "none");
    }
    for assumption in &report.assumptions {
        line(&mut out, &format!("- {}", assumption.text));
    }
    out
}
