//! The JSON interface of lashwork: a JSON document in, a JSON report or a plain job sheet out.
//!
//! A document is read strictly: unknown fields, duplicate keys, bare numbers and impossible values are
//! refused, all of them together, each with a stable code, its JSON pointer, what was expected and
//! the nearest known name. The document types live here and not in the core, because only this
//! interface needs a reader that continues after an error.
//!
//! Without its feature `whole`, which is on by default, a quick check is refused what the core leaves out then.
//!
//! ```
//! let answer = lashwork_wire::run(b"{\"lashwork\": 1, \"titel\": \"x\"}");
//! let text = String::from_utf8(answer)?;
//! assert!(text.contains("document.unknown-field") && text.contains("title"));
//! # Ok::<(), std::string::FromUtf8Error>(())
//! ```
#![forbid(unsafe_code)]

#[macro_use]
mod declare;

mod about;
mod air;
mod answer;
mod band;
mod causes;
mod clearance;
mod columns;
mod condition;
mod document;
mod drawing;
mod engine;
mod history;
mod ignition;
mod in_whole;
mod json;
mod log;
mod mixture;
mod one_valve;
mod part;
mod place;
mod problem;
mod quantity;
mod read;
#[cfg(feature = "schema")]
pub mod schema;
mod section;
mod word;

pub use answer::{full_sheet_told, job_sheet_told};
pub use columns::{LashReadings, OUTPUTS, judge_columns};
pub use condition::{LEAK_OUTPUTS, leak_columns};
pub use drawing::{lash_text, shares, temperature_text};
pub use history::{DRIFT_OUTPUTS, DriftReadings, drift_columns};
pub use ignition::ignition_check;
pub use mixture::{DENSITY_OUTPUTS, LAMBDA_OUTPUTS, density_columns, lambda_columns};
pub use one_valve::quick_report;
pub use problem::Problem;

use answer::told;
use lashwork::job::{Report, Request};
use lashwork::quantity::Quoted;

/// Largest document that is read, in bytes.
pub const MAX_BYTES: usize = 4 * 1024 * 1024;

/// Reads a document into a job request.
///
/// # Errors
/// Every [`Problem`] of the document, with JSON pointers as places.
pub fn read(document: &[u8]) -> Result<Request, Vec<Problem>> {
    json::read(document, |value, problems| {
        document::Document::of(value, problems)?.request(problems)
    })
}

/// Reads a document and runs the job in it.
///
/// # Errors
/// Every [`Problem`] of the document, with JSON pointers as places.
///
/// ```
/// assert_eq!(lashwork_wire::report(b"").unwrap_err()[0].code, "document.not-json");
/// ```
pub fn report(document: &[u8]) -> Result<Report, Vec<Problem>> {
    let told = |problem: lashwork::job::Problem| {
        let place = problem::pointer(&problem.place);
        Problem::of(problem, place)
    };
    let answer = lashwork::job::run(&read(document)?);
    answer.map_err(|problems| problems.into_iter().map(told).collect())
}

/// Answers a document with JSON: `{"report": ...}` or `{"problems": [...]}`.
#[must_use]
pub fn run(document: &[u8]) -> Vec<u8> {
    told("report", report(document))
}

/// Answers a quick check with JSON: `{"quick": ...}` or `{"problems": [...]}`.
///
/// ```
/// let answer = String::from_utf8(lashwork_wire::quick_check(b"{}"))?;
/// assert!(answer.contains("\"problems\"") && answer.contains("limits"));
/// # Ok::<(), std::string::FromUtf8Error>(())
/// ```
#[must_use]
pub fn quick_check(check: &[u8]) -> Vec<u8> {
    told("quick", quick_report(check))
}

/// Judges columns as [`judge_columns`] does and gives the rest as JSON: `{"refused": [...]}` with the
/// rows that were refused, or `{"problems": [...]}`.
///
/// ```
/// let none = lashwork_wire::LashReadings::default();
/// let answer = lashwork_wire::judge_columns_told(b"{}", &none, &mut []);
/// assert!(String::from_utf8(answer)?.contains("document.missing-field"));
/// # Ok::<(), std::string::FromUtf8Error>(())
/// ```
#[must_use]
#[inline]
pub fn judge_columns_told(
    settings: &[u8],
    readings: &LashReadings<'_>,
    out: &mut [f64],
) -> Vec<u8> {
    let refused = judge_columns(settings, readings, out);
    told("refused", refused)
}

/// Works lambda out as [`lambda_columns`] does and gives the rest as JSON: `{"refused": [...]}` with the rows
/// that were refused, or `{"problems": [...]}`.
///
/// ```
/// let answer = lashwork_wire::lambda_columns_told(b"{}", [&[]; 4], &mut []);
/// assert!(String::from_utf8(answer)?.contains("document.missing-field"));
/// # Ok::<(), std::string::FromUtf8Error>(())
/// ```
#[must_use]
pub fn lambda_columns_told(settings: &[u8], columns: [&[f64]; 4], out: &mut [f64]) -> Vec<u8> {
    told("refused", lambda_columns(settings, columns, out))
}

/// Works densities out as [`density_columns`] does and gives the rest as JSON: `{"refused": [...]}` with the
/// rows that were refused, or `{"problems": [...]}`.
///
/// ```
/// let answer = lashwork_wire::density_columns_told(b"{}", [&[]; 3], &mut []);
/// assert!(String::from_utf8(answer)?.contains("document.missing-field"));
/// # Ok::<(), std::string::FromUtf8Error>(())
/// ```
#[must_use]
pub fn density_columns_told(settings: &[u8], columns: [&[f64]; 3], out: &mut [f64]) -> Vec<u8> {
    told("refused", density_columns(settings, columns, out))
}

/// Works areas of leaks out as [`leak_columns`] does and gives the rest as JSON: `{"refused": [...]}` with the rows
/// that were refused, or `{"problems": [...]}`.
///
/// ```
/// let answer = lashwork_wire::leak_columns_told(b"{}", [&[]; 2], &mut []);
/// assert!(String::from_utf8(answer)?.contains("document.missing-field"));
/// # Ok::<(), std::string::FromUtf8Error>(())
/// ```
#[must_use]
pub fn leak_columns_told(settings: &[u8], columns: [&[f64]; 2], out: &mut [f64]) -> Vec<u8> {
    told("refused", leak_columns(settings, columns, out))
}

/// Works drifts out as [`drift_columns`] does and gives the rest as JSON: `{"refused": [...]}` with the valves that
/// were refused, or `{"problems": [...]}`.
///
/// ```
/// let none = lashwork_wire::DriftReadings {
///     at: &[], low: &[], high: &[], uncertainty: &[], valve: &[], state: &[],
/// };
/// let answer = lashwork_wire::drift_columns_told(b"{}", &none, &mut []);
/// assert!(String::from_utf8(answer)?.contains("document.missing-field"));
/// # Ok::<(), std::string::FromUtf8Error>(())
/// ```
#[must_use]
pub fn drift_columns_told(
    settings: &[u8],
    readings: &DriftReadings<'_>,
    out: &mut [f64],
) -> Vec<u8> {
    told("refused", drift_columns(settings, readings, out))
}

/// Draws as [`shares`] does and answers with JSON: `{"filled": 96}` or `{"problems": [...]}`.
#[must_use]
pub fn shares_told(
    ends: (f64, f64),
    uncertainty: f64,
    scale: (f64, f64),
    out: &mut [f64],
) -> Vec<u8> {
    let filled = shares(ends, uncertainty, scale, out).map(|()| out.len());
    told("filled", filled.map_err(|problem| vec![problem]))
}

/// Writes as [`lash_text`] does and answers with JSON: `{"text": "0.0100 in"}` or
/// `{"problems": [...]}`.
#[must_use]
pub fn lash_text_told(mm: f64, unit: &str, decimals: usize) -> Vec<u8> {
    let text = lash_text(mm, unit, decimals);
    told("text", text.map_err(|problem| vec![problem]))
}

/// Writes as [`temperature_text`] does and answers with JSON: `{"text": "68 F"}` or
/// `{"problems": [...]}`.
#[must_use]
pub fn temperature_text_told(celsius: f64, unit: &str, decimals: usize) -> Vec<u8> {
    let text = temperature_text(celsius, unit, decimals);
    told("text", text.map_err(|problem| vec![problem]))
}

/// Answers a document with the job sheet: one page for a small engine.
///
/// # Errors
/// The problems as plain text, one paragraph each.
///
/// ```
/// assert!(lashwork_wire::job_sheet(b"[]").unwrap_err().contains("document"));
/// ```
pub fn job_sheet(document: &[u8]) -> Result<String, String> {
    let report = report(document).map_err(|problems| paragraphs(&problems))?;
    Ok(report.sheet())
}

/// Answers a document with the full sheet: the page, and everything behind it.
///
/// # Errors
/// As [`job_sheet`].
///
/// ```
/// assert!(lashwork_wire::full_sheet(b"[]").unwrap_err().contains("document"));
/// ```
pub fn full_sheet(document: &[u8]) -> Result<String, String> {
    let report = report(document).map_err(|problems| paragraphs(&problems))?;
    Ok(report.full_sheet())
}

fn paragraphs(problems: &[Problem]) -> String {
    let one = |p: &Problem| {
        let (code, place, message, hint) = (&p.code, Quoted(&p.place), &p.message, &p.hint);
        format!("{code} at {place}: {message}\n    {hint}\n")
    };
    problems.iter().map(one).collect()
}

/// The JSON Schema of a document.
///
/// ```
/// assert!(lashwork_wire::document_schema().contains("firing_order"));
/// ```
#[must_use]
pub const fn document_schema() -> &'static str {
    include_str!("../schema/document.schema.json")
}

/// The JSON Schema of questions of the ignition that need no engine: what [`ignition_check`] takes.
///
/// ```
/// assert!(lashwork_wire::ignition_check_schema().contains("spark_shift"));
/// ```
#[must_use]
pub const fn ignition_check_schema() -> &'static str {
    include_str!("../schema/ignition_check.schema.json")
}

/// The JSON Schema of every answer: an object with `report` (to a document), `quick` (to a quick check),
/// `ignition` (to questions of the ignition) or `problems`.
///
/// ```
/// assert!(lashwork_wire::report_schema().contains("verdict"));
/// ```
#[must_use]
pub const fn report_schema() -> &'static str {
    include_str!("../schema/report.schema.json")
}

/// The programs in the read-me file, for the tests of the documentation.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
struct ReadMe;
