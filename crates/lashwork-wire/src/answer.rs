//! The answer document: one key that says what it is, and a report or every problem under it.

use crate::problem::Problem;
use crate::report;
use serde::ser::{Serialize, SerializeMap, Serializer};

/// Writes an answer, under a key of its kind or under `problems`. Only what a caller may give is made
/// writable, so that an interface without whole jobs does not hold the writing of their reports.
pub(crate) fn told<T: Serialize>(key: &str, answer: Result<T, Vec<Problem>>) -> Vec<u8> {
    match answer {
        Ok(value) => written(&Keyed { key, value }),
        Err(value) => written(&Keyed {
            key: "problems",
            value,
        }),
    }
}

/// Answers a document with JSON: `{"sheet": ...}` with the job sheet of one page, or `{"problems": [...]}`.
///
/// ```
/// let answer = String::from_utf8(lashwork_wire::job_sheet_told(b"[]"))?;
/// assert!(answer.starts_with("{\"problems\":[{") && answer.contains("document.wrong-type"));
/// # Ok::<(), std::string::FromUtf8Error>(())
/// ```
#[must_use]
pub fn job_sheet_told(document: &[u8]) -> Vec<u8> {
    told("sheet", report(document).map(|report| report.sheet()))
}

/// Answers a document with JSON: `{"sheet": ...}` with the full sheet, or `{"problems": [...]}`.
///
/// ```
/// let answer = String::from_utf8(lashwork_wire::full_sheet_told(b"[]"))?;
/// assert!(answer.starts_with("{\"problems\":[{") && answer.contains("document.wrong-type"));
/// # Ok::<(), std::string::FromUtf8Error>(())
/// ```
#[must_use]
pub fn full_sheet_told(document: &[u8]) -> Vec<u8> {
    told("sheet", report(document).map(|report| report.full_sheet()))
}

fn written<T: Serialize>(answer: &T) -> Vec<u8> {
    serde_json::to_vec(answer).unwrap_or_default()
}

struct Keyed<'k, T> {
    key: &'k str,
    value: T,
}

impl<T: Serialize> Serialize for Keyed<'_, T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(1))?;
        map.serialize_entry(self.key, &self.value)?;
        map.end()
    }
}
