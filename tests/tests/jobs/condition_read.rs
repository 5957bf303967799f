//! What the tests of the condition section share: an invented four and its report.
#![allow(
    clippy::expect_used,
    clippy::panic,
    reason = "a test that cannot read its document stops with the reason"
)]

use super::ignition_four::{four, run};
use lashwork::job::condition::{CompressionReport, ConditionReport, HeadReport, LeakDownReport};
use lashwork::job::{Report, Standing, WorkStep};
use serde_json::{Value, json};

/// A document of an invented four with this condition section.
pub(crate) fn document(condition: &Value) -> Value {
    let mut document = four(&json!({}));
    let fields = document.as_object_mut().expect("an object");
    fields.remove("ignition");
    fields.insert("condition".into(), condition.clone());
    document
}

/// Its report, the sheet within its width.
pub(crate) fn report(condition: &Value) -> Report {
    let report = run(&document(condition));
    let sheet = report.sheet();
    assert!(
        sheet.lines().all(|line| line.chars().count() <= 100),
        "{sheet}"
    );
    report
}

/// The condition section of a report.
pub(crate) fn section(report: &Report) -> &ConditionReport {
    report.condition.as_ref().expect("asked for")
}

/// What compression says.
pub(crate) fn compression(report: &Report) -> &CompressionReport {
    section(report).compression.as_ref().expect("asked for")
}

/// What is said of the head's bolts.
pub(crate) fn head(report: &Report) -> &HeadReport {
    section(report).head.as_ref().expect("asked for")
}

/// What leak-down says.
pub(crate) fn leak(report: &Report) -> &LeakDownReport {
    section(report).leak.as_ref().expect("asked for")
}

/// Where a step stands.
pub(crate) fn step(report: &Report, step: WorkStep) -> Standing {
    let found = section(report).steps.iter().find(|one| one.step == step);
    found.expect("told").standing
}

/// That it is refused, and where.
#[track_caller]
pub(crate) fn refused_with(place: &str, code: &str, condition: &Value) {
    let problems = lashwork_wire::report(document(condition).to_string().as_bytes());
    let problems = problems.expect_err("refused");
    let first = problems.first().expect("one");
    assert_eq!((first.place.as_str(), first.code.as_str()), (place, code));
    assert!(!first.hint.is_empty());
}

/// Dry readings in psi, of cylinders 1 on.
pub(crate) fn dry(psi: &[f64]) -> Value {
    let one = |(i, psi): (usize, &f64)| json!({"cylinder": (i + 1).to_string(), "dry": format!("{psi} psi")});
    psi.iter().enumerate().map(one).collect()
}
