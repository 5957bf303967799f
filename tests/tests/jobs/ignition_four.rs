//! What the tests of the ignition section share: an invented four, its report, its first refusal.
#![allow(
    clippy::expect_used,
    clippy::panic,
    reason = "a test that cannot read its document stops with the reason"
)]

use lashwork::job::Report;
use lashwork::job::ignition::IgnitionReport;
use serde_json::{Value, json};

/// A document of an invented four with this ignition section.
pub(crate) fn four(ignition: &Value) -> Value {
    json!({
        "title": "Invented four",
        "engine": {
            "cycle": "four_stroke",
            "cylinders": [{"label": "1"}, {"label": "2"}, {"label": "3"}, {"label": "4"}],
            "firing_order": ["1", "3", "4", "2"],
            "firing": "even",
            "rotation": {"sense": "clockwise", "seen_from": "free_end"},
            "numbering": "free_end",
            "ignition": "battery"
        },
        "ignition": ignition
    })
}

/// Its report.
pub(crate) fn run(document: &Value) -> Report {
    lashwork_wire::report(document.to_string().as_bytes())
        .unwrap_or_else(|problems| panic!("{problems:?}"))
}

/// The ignition section of a report.
pub(crate) fn section(report: &Report) -> &IgnitionReport {
    report.ignition.as_ref().expect("asked for")
}

/// Whether something was assumed.
pub(crate) fn assumed(report: &Report, code: &str) -> bool {
    report.assumptions.iter().any(|one| one.code == code)
}
