//! Outside checks of the kernel: published figures, laws, shared vectors, layering.
//!
//! Here stands what several test files use.
#![allow(
    clippy::panic,
    clippy::missing_panics_doc,
    reason = "a test helper that cannot go on fails the test with a reason"
)]

pub mod bits;
pub mod codes;
pub mod direct;
pub mod drawn;
pub mod engines;
pub mod every_plan;
pub mod one_reading;
pub mod quick;
pub mod refusals;
pub mod values;
pub mod vectors;

use serde_json::Value;
use std::path::PathBuf;

/// The clearance section of a report.
#[must_use]
pub fn clearance(report: &lashwork::job::Report) -> &lashwork::job::clearance::ClearanceReport {
    let section = report.clearance.as_ref();
    section.unwrap_or_else(|| panic!("the report of {:?} has no clearance section", report.title))
}

/// The workspace root.
#[must_use]
pub fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// The cases of `tests/oracles/<name>.json`.
#[must_use]
pub fn oracle(name: &str) -> Vec<Value> {
    let path = root().join("tests/oracles").join(format!("{name}.json"));
    let text =
        std::fs::read_to_string(&path).unwrap_or_else(|why| panic!("{}: {why}", path.display()));
    let document: Value =
        serde_json::from_str(&text).unwrap_or_else(|why| panic!("{}: {why}", path.display()));
    let cases = document.get("cases").and_then(Value::as_array);
    match cases {
        Some(cases) if !cases.is_empty() => cases.clone(),
        _ => panic!("{}: no cases", path.display()),
    }
}

/// A text field of a case.
#[must_use]
pub fn text<'a>(case: &'a Value, key: &str) -> &'a str {
    case.get(key)
        .and_then(Value::as_str)
        .unwrap_or_else(|| panic!("no text {key:?} in {case}"))
}

/// A number stored as text, rounded once to the nearest `f64`.
#[must_use]
pub fn number(case: &Value, key: &str) -> f64 {
    parse(text(case, key))
}

/// A list of numbers stored as texts.
#[must_use]
pub fn numbers(case: &Value, key: &str) -> Vec<f64> {
    list(case, key)
        .iter()
        .map(|value| parse(value.as_str().unwrap_or("not a text")))
        .collect()
}

/// A list field of a case.
#[must_use]
pub fn list<'a>(case: &'a Value, key: &str) -> &'a [Value] {
    case.get(key)
        .and_then(Value::as_array)
        .unwrap_or_else(|| panic!("no list {key:?} in {case}"))
}

fn parse(text: &str) -> f64 {
    text.parse()
        .unwrap_or_else(|why| panic!("{text:?} is not a number: {why}"))
}

/// Gathers every difference, so that one run shows all.
#[derive(Debug, Default)]
pub struct Differences {
    checked: usize,
    found: Vec<String>,
}

impl Differences {
    /// Compares with a tolerance that is the greater of an absolute one and a share of `want`.
    pub fn compare(&mut self, place: &str, got: f64, want: f64, absolute: f64, relative: f64) {
        self.checked += 1;
        let off = (got - want).abs();
        // Written so that a NaN is a difference.
        let is_close = off <= absolute.max(relative * want.abs());
        if !is_close {
            self.found.push(format!(
                "{place}: got {got:e}, want {want:e}, off by {off:e}"
            ));
        }
    }

    /// Ends the test: something was checked and nothing differed.
    pub fn settle(self) {
        assert!(self.checked > 0, "nothing was checked");
        assert!(
            self.found.is_empty(),
            "{} of {} differ:\n{}",
            self.found.len(),
            self.checked,
            self.found.join("\n")
        );
    }
}

/// Every document of `examples/data`, with its file name.
#[must_use]
pub fn examples() -> Vec<(String, Vec<u8>)> {
    let folder = root().join("examples/data");
    let entries =
        std::fs::read_dir(&folder).unwrap_or_else(|why| panic!("{}: {why}", folder.display()));
    let mut examples: Vec<(String, Vec<u8>)> = entries
        .flatten()
        .map(|entry| entry.path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "json"))
        .map(|path| {
            let bytes =
                std::fs::read(&path).unwrap_or_else(|why| panic!("{}: {why}", path.display()));
            let name = path.file_name().unwrap_or_default();
            (name.to_string_lossy().into_owned(), bytes)
        })
        .collect();
    examples.sort();
    assert!(!examples.is_empty(), "{}: no examples", folder.display());
    examples
}
