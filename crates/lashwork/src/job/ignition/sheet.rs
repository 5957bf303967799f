//! The ignition section of the sheet, in the order of work.

use super::contacts;
use super::electrics;
use super::evenness;
use super::leads;
use super::order::Standing;
use super::point;
use super::report::IgnitionReport;
use super::timing;
use crate::job::page::wrap;
use alloc::format;
use alloc::string::String;

/// Writes what comes before everything else.
pub(in crate::job) fn first(out: &mut String, report: &IgnitionReport) {
    for one in &report.stop_work {
        wrap::write(out, "STOP WORK: ", &one.text);
    }
}

/// Writes the section.
pub(in crate::job) fn write(out: &mut String, report: &IgnitionReport) {
    wrap::write(out, "", "Order of work:");
    for (i, step) in report.steps.iter().enumerate() {
        let mark = match step.standing {
            Standing::Settled => "x",
            Standing::NotSettled => " ",
            Standing::NotKnown => "?",
        };
        let lead = format!("{:2} [{mark}] ", i + 1);
        wrap::write(out, &lead, &format!("{}: {}", step.name, step.text));
    }
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
    if let Some(found) = &report.point {
        point::sheet::write(out, found);
    }
}
