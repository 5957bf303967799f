//! The contacts on the sheet.

use super::ContactsReport;
use crate::job::page::wrap;
use crate::job::work::{MeasuredReport, write_advice};
use alloc::format;
use alloc::string::String;

/// Writes them.
pub(in crate::job::ignition) fn write(out: &mut String, found: &ContactsReport) {
    wrap::write(out, "", &format!("Contacts, {} lobes:", found.lobes));
    let mut judged = |what: &str, one: &Option<MeasuredReport>| {
        if let Some(one) = one {
            let text = format!("{}, book {}: {}", one.found, one.limits, one.verdict_text);
            wrap::write(out, &format!("  {what}: "), &text);
        }
    };
    judged("dwell", &found.dwell);
    judged("gap", &found.gap);
    judged("dwell with speed", &found.steady);
    for text in found.other_scales.iter().map(|other| &other.text) {
        wrap::write(out, "  scale? ", text);
    }
    let said = [&found.leaf_against_dwell, &found.second_pair];
    for text in said.into_iter().flatten() {
        wrap::write(out, "  ", text);
    }
    write_advice(out, &found.advice);
    if let Some(spark) = &found.spark {
        wrap::write(out, "  > ", &spark.text);
    }
}
