//! The clearance section of the sheet.

use super::report::ClearanceReport;
use super::{books, crank, readings, shims, stop_work, stops, together, warmth};
use crate::job::units::Shown;
use alloc::string::String;

/// Writes what comes before everything else.
pub(in crate::job) fn first(out: &mut String, report: &ClearanceReport) {
    stop_work::sheet::write(out, &report.stop_work);
}

/// Writes the section, in the order in which it is worked through.
pub(in crate::job) fn write(out: &mut String, report: &ClearanceReport, shown: Shown) {
    books::sheet::write(out, &report.specifications, &report.disagreements, shown);
    if let Some(check) = &report.crank_check {
        crank::sheet::write(out, check);
    }
    stops::sheet::write(out, &report.stops, shown.inches);
    warmth::sheet::write(out, &report.warmth, shown);
    readings::sheet::write(out, report.locking.as_ref(), &report.rule, &report.valves);
    readings::sheet::not_read(out, &report.not_read);
    shims::sheet::write(out, &report.shim_plans, shown.inches);
    if let Some(found) = &report.diagnosis {
        together::sheet::write(out, found);
    }
}
