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
        drift::sheet::write(out, "Valve clearances", found, is_short);
    }
    if let Some(found) = &report.recession {
        lash::sheet::write(out, found, is_short);
    }
    let numbers = [
        ("Dwell", &report.dwell),
        ("Ignition point", &report.timing),
        ("Compression", &report.compression),
        ("Leaks", &report.leak_area),
    ];
    for (title, found) in numbers {
        if let Some(found) = found {
            drift::sheet::write(out, title, found, is_short);
        }
    }
}
