//! The condition section of the sheet, in the order of work.

use super::compression;
use super::head;
use super::leak;
use super::report::ConditionReport;
use crate::job::work::{write_next, write_steps, write_stops};
use alloc::string::String;

/// Writes what comes before everything else.
pub(in crate::job) fn first(out: &mut String, report: &ConditionReport) {
    write_stops(out, &report.stop_work);
}

/// Writes the section.
pub(in crate::job) fn write(out: &mut String, report: &ConditionReport) {
    write_steps(out, &report.steps);
    write_next(out, report.next.as_ref());
    if let Some(found) = &report.head {
        head::sheet::write(out, found);
    }
    if let Some(found) = &report.compression {
        compression::sheet::write(out, found);
    }
    if let Some(found) = &report.leak {
        leak::sheet::write(out, found);
    }
}
