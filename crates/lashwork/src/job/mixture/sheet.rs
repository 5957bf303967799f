//! The mixture section of the sheet, in the order of work.

use super::air;
use super::balance;
use super::float;
use super::gas;
use super::gauge;
use super::idle;
use super::jets;
use super::report::MixtureReport;
use crate::job::work::{write_next, write_steps, write_stops};
use alloc::string::String;

/// Writes what comes before everything else.
pub(in crate::job) fn first(out: &mut String, report: &MixtureReport) {
    write_stops(out, &report.stop_work);
}

/// Writes the section.
pub(in crate::job) fn write(out: &mut String, report: &MixtureReport) {
    write_steps(out, &report.steps);
    write_next(out, report.next.as_ref());
    if let Some(found) = &report.air {
        air::sheet::write(out, found);
    }
    if let Some(found) = &report.gauge {
        gauge::sheet::write(out, found);
    }
    if let Some(found) = &report.float {
        float::sheet::write(out, found);
    }
    if let Some(found) = &report.jets {
        jets::sheet::write(out, found);
    }
    if let Some(found) = &report.balance {
        balance::sheet::write(out, found);
    }
    if let Some(found) = &report.idle {
        idle::sheet::write(out, found);
    }
    if let Some(found) = &report.gas {
        gas::sheet::write(out, found);
    }
}
