//! The report as plain text, the same bytes for the same report.

use super::report::Report;
use super::text::{line, section};
use super::work::{WorkStopReport, write_service, write_service_steps};
use super::{causes, clearance, condition, engine, history, ignition, mixture, page};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

impl Report {
    /// The job sheet: a page a step of the service (one for a small engine), the same bytes for the same
    /// report.
    #[must_use]
    pub fn sheet(&self) -> String {
        let pages = self.pages();
        if pages.is_empty() {
            full(self, false)
        } else {
            pages.join("\n")
        }
    }

    /// The page and everything behind it.
    #[must_use]
    pub fn full_sheet(&self) -> String {
        let mut pages = self.pages();
        let has_pages = !pages.is_empty();
        pages.push(full(self, has_pages));
        pages.join("\n")
    }

    /// A page a section, what comes next in the whole service on top of the first.
    fn pages(&self) -> Vec<String> {
        let pages = [
            self.clearance
                .as_ref()
                .map(|found| page::write(self, found)),
            self.condition
                .as_ref()
                .map(|found| page::write_condition(self, found)),
            self.ignition
                .as_ref()
                .map(|found| page::write_ignition(self, found)),
            self.mixture
                .as_ref()
                .map(|found| page::write_mixture(self, found)),
            self.history
                .as_ref()
                .map(|found| page::write_history(self, found)),
        ];
        let mut pages: Vec<String> = pages.into_iter().flatten().collect();
        if let (Some(service), Some(first)) = (&self.service, pages.first_mut()) {
            let mut top = String::new();
            write_service(&mut top, service, &self.stops());
            first.insert_str(0, &(top + "\n"));
        }
        pages
    }

    /// What stops the work, over the sections.
    fn stops(&self) -> Vec<&WorkStopReport> {
        let told = [
            self.condition.as_ref().map(|found| &found.stop_work),
            self.ignition.as_ref().map(|found| &found.stop_work),
            self.mixture.as_ref().map(|found| &found.stop_work),
        ];
        told.into_iter().flatten().flatten().collect()
    }
}

/// Everything; what stands on top of pages before it is not said again.
fn full(report: &Report, has_pages: bool) -> String {
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
    if let Some(service) = &report.service {
        section(&mut out, "The whole service");
        if !has_pages {
            write_service(&mut out, service, &report.stops());
        }
        write_service_steps(&mut out, service);
    }
    section(&mut out, "Cautions");
    for caution in &report.cautions {
        line(&mut out, &format!("! {caution}"));
    }
    let shown = report.units.shown();
    let alone = report.clearance.is_none();
    engine::sheet::write(&mut out, &report.engine, alone, shown.inches);
    if let Some(found) = &report.clearance {
        clearance::sheet::write(&mut out, found, shown);
    }
    if let Some(found) = &report.condition {
        section(&mut out, "Condition");
        condition::sheet::first(&mut out, found);
        condition::sheet::write(&mut out, found);
    }
    if let Some(found) = &report.ignition {
        section(&mut out, "Ignition");
        ignition::sheet::first(&mut out, found);
        ignition::sheet::write(&mut out, found);
    }
    if let Some(found) = &report.mixture {
        section(&mut out, "Mixture");
        mixture::sheet::first(&mut out, found);
        mixture::sheet::write(&mut out, found);
    }
    if let Some(found) = &report.history {
        section(&mut out, "History");
        history::sheet::write(&mut out, found, false);
    }
    if let Some(found) = &report.causes {
        section(&mut out, "What may be the matter");
        causes::sheet::write(&mut out, found);
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
