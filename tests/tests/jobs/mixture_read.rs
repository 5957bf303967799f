//! What the tests of the mixture section share: an invented four and its report.
#![allow(
    clippy::expect_used,
    clippy::panic,
    reason = "a test that cannot read its document stops with the reason"
)]

use super::ignition_four::{four, run};
use lashwork::job::mixture::MixtureReport;
use lashwork::job::{Report, Standing, WorkStep};
use serde_json::{Value, json};

/// A document of an invented four with this mixture section.
pub(crate) fn document(mixture: &Value) -> Value {
    let mut document = four(&json!({}));
    let fields = document.as_object_mut().expect("an object");
    fields.remove("ignition");
    fields.insert("mixture".into(), mixture.clone());
    document
}

/// Its report, the sheet within its width.
pub(crate) fn report(mixture: &Value) -> Report {
    let report = run(&document(mixture));
    let sheet = report.sheet();
    assert!(
        sheet.lines().all(|line| line.chars().count() <= 100),
        "{sheet}"
    );
    report
}

/// The mixture section of a report.
pub(crate) fn section(report: &Report) -> &MixtureReport {
    report.mixture.as_ref().expect("asked for")
}

/// Where a step stands.
pub(crate) fn step(report: &Report, step: WorkStep) -> Standing {
    let found = section(report).steps.iter().find(|one| one.step == step);
    found.expect("told").standing
}

/// That it is refused, and where.
#[track_caller]
pub(crate) fn refused_with(place: &str, code: &str, mixture: &Value) {
    let problems = lashwork_wire::report(document(mixture).to_string().as_bytes());
    let problems = problems.expect_err("refused");
    let first = problems.first().expect("one");
    assert_eq!((first.place.as_str(), first.code.as_str()), (place, code));
    assert!(!first.hint.is_empty());
}
