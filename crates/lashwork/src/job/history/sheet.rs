//! The history section of the sheet.

use super::growth::RecordStanding;
use super::report::HistoryReport;
use super::{drift, lash};
use crate::job::page::wrap;
use alloc::string::String;
use alloc::vec::Vec;

/// Writes the section; what needs no look soon is short where `is_short`.
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
        drift::sheet::write(out, found, is_short);
    }
    if let Some(found) = &report.recession {
        lash::sheet::write(out, found);
    }
    let numbers = [
        &report.dwell,
        &report.timing,
        &report.compression,
        &report.leak_area,
    ];
    for found in numbers.into_iter().flatten() {
        drift::sheet::write(out, found, is_short);
    }
}
