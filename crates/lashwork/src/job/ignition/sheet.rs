//! The ignition section of the sheet, in the order of work.

use super::contacts;
use super::electrics;
use super::evenness;
use super::leads;
use super::magneto;
use super::point;
use super::report::IgnitionReport;
use super::timing;
use crate::job::work::{write_next, write_steps, write_stops};
use alloc::string::String;

/// Writes what comes before everything else.
pub(in crate::job) fn first(out: &mut String, report: &IgnitionReport) {
    write_stops(out, &report.stop_work);
    if let Some(found) = &report.magneto {
        magneto::sheet::first(out, found, &report.stop_work);
    }
}

/// Writes the section.
pub(in crate::job) fn write(out: &mut String, report: &IgnitionReport) {
    write_steps(out, &report.steps);
    write_next(out, report.next.as_ref());
    if let Some(found) = &report.leads {
        leads::sheet::write(out, found);
    }
    if let Some(found) = &report.contacts {
        contacts::sheet::write(out, found);
    }
    if let Some(found) = &report.electrics {
        electrics::sheet::write(out, found);
    }
    if let Some(found) = &report.timing {
        timing::sheet::write(out, found);
    }
    if let Some(found) = &report.evenness {
        evenness::sheet::write(out, found);
    }
    if let Some(found) = &report.magneto {
        magneto::sheet::write(out, found);
    }
    if let Some(found) = &report.point {
        point::sheet::write(out, found);
    }
}
