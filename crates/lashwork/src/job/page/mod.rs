//! The job sheet on one page, in the order of the work: what has to be settled first, what the book asks
//! for, what can hurt, stop by stop what was found and what to do, the shims, what is open, what was
//! assumed. Everything else is on the full sheet.

mod head;
mod rest;
mod shims;
mod stops;
pub(super) mod wrap;

use super::clearance::ClearanceReport;
use super::condition::{self, ConditionReport};
use super::history::{self, HistoryReport};
use super::ignition::{self, IgnitionReport};
use super::mixture::{self, MixtureReport};
use super::report::Report;
use alloc::string::String;

/// The page of a job that has readings to take.
pub(super) fn write(report: &Report, found: &ClearanceReport) -> String {
    let inches = report.units.shown().inches;
    let mut out = String::new();
    head::write(&mut out, report, found);
    stops::write(&mut out, found, inches);
    shims::write(&mut out, found, inches);
    rest::write(&mut out, report, found);
    out
}

/// The page of the condition; behind another page its cautions stand there.
pub(super) fn write_condition(report: &Report, found: &ConditionReport) -> String {
    let mut out = String::new();
    head::title(&mut out, "CONDITION", report);
    condition::sheet::first(&mut out, found);
    let alone = report.clearance.is_none();
    if alone {
        for caution in &report.cautions {
            wrap::write(&mut out, "! ", caution);
        }
    }
    condition::sheet::write(&mut out, found);
    if alone {
        rest::assumed(&mut out, report);
    }
    rest::signed(&mut out);
    out
}

/// The page of the ignition; behind another page its cautions stand there.
pub(super) fn write_ignition(report: &Report, found: &IgnitionReport) -> String {
    let mut out = String::new();
    head::title(&mut out, "IGNITION", report);
    ignition::sheet::first(&mut out, found);
    let alone = report.clearance.is_none() && report.condition.is_none();
    if alone {
        for caution in &report.cautions {
            wrap::write(&mut out, "! ", caution);
        }
    }
    ignition::sheet::write(&mut out, found);
    if alone {
        rest::assumed(&mut out, report);
    }
    rest::signed(&mut out);
    out
}

/// The page of the mixture; behind another page its cautions stand there.
pub(super) fn write_mixture(report: &Report, found: &MixtureReport) -> String {
    let mut out = String::new();
    head::title(&mut out, "MIXTURE", report);
    mixture::sheet::first(&mut out, found);
    let alone =
        report.clearance.is_none() && report.condition.is_none() && report.ignition.is_none();
    if alone {
        for caution in &report.cautions {
            wrap::write(&mut out, "! ", caution);
        }
    }
    mixture::sheet::write(&mut out, found);
    if alone {
        rest::assumed(&mut out, report);
    }
    rest::signed(&mut out);
    out
}

/// The page of past services; behind another page its cautions stand there.
pub(super) fn write_history(report: &Report, found: &HistoryReport) -> String {
    let mut out = String::new();
    head::title(&mut out, "HISTORY", report);
    let alone = report.clearance.is_none() && report.ignition.is_none() && report.mixture.is_none();
    if alone {
        for caution in &report.cautions {
            wrap::write(&mut out, "! ", caution);
        }
    }
    history::sheet::write(&mut out, found, true);
    if alone {
        rest::assumed(&mut out, report);
    }
    rest::signed(&mut out);
    out
}
