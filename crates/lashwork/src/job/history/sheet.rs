//! The history section of the sheet.

use super::growth::RecordStanding;
use super::report::HistoryReport;
use super::{drift, lash};
use crate::job::page::wrap;
use alloc::string::String;
use alloc::vec::Vec;

/// Writes the section; where `is_short`, what is alike is said once, and what needs no look soon is short.
pub(in crate::job) fn write(out: &mut String, report: &HistoryReport, is_short: bool) {
    if let Some(record) = &report.record {
        let lead = match record.standing {
            RecordStanding::Grown => "Record: ",
            _ => "RECORD NOT WHOLE: ",
        };
        wrap::write(out, lead, &record.text);
    }
    let services: Vec<&str> = report.services.iter().map(|s| s.text.as_str()).collect();
    wrap::write(out, "Services: ", &services.join("; "));
    wrap::write(out, "", &report.present);
    if let Some(found) = &report.lash {
        drift::sheet::write(out, ("Valve clearances", None), found, is_short);
    }
    if let Some(found) = &report.recession {
        lash::sheet::write(out, found, is_short);
    }
    let testers = report.leak_testers.as_ref();
    let testers = testers.map(|testers| testers.text.as_str());
    let numbers = [
        (("Dwell", None), &report.dwell),
        (("Ignition point", None), &report.timing),
        (("Compression", None), &report.compression),
        (("Leaks", testers), &report.leak_area),
    ];
    for (head, found) in numbers {
        if let Some(found) = found {
            drift::sheet::write(out, head, found, is_short);
        }
    }
}
