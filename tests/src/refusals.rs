//! Documents with something wrong in them, and the one problem each must have.

use crate::examples;
use lashwork_wire::Problem;
use serde_json::Value;

/// An example as a value.
#[must_use]
pub fn example(file: &str) -> Value {
    let found = examples()
        .into_iter()
        .find(|(name, _)| name == file)
        .and_then(|(_, bytes)| serde_json::from_slice(&bytes).ok());
    found.unwrap_or_else(|| panic!("no {file}"))
}

/// A document with some values put in, by JSON pointer; the last step may be new.
#[must_use]
pub fn with(mut document: Value, edits: &[(&str, Value)]) -> Value {
    for (pointer, value) in edits {
        put(&mut document, pointer, value.clone());
    }
    document
}

/// Puts one value into a document.
pub fn put(document: &mut Value, pointer: &str, value: Value) {
    let (parent, key) = pointer.rsplit_once('/').unwrap_or_default();
    match document.pointer_mut(parent) {
        Some(Value::Object(map)) => {
            map.insert(key.to_owned(), value);
        }
        Some(Value::Array(items)) => {
            let slot = key.parse().ok().and_then(|i: usize| items.get_mut(i));
            match slot {
                Some(slot) => *slot = value,
                None => items.push(value),
            }
        }
        _ => panic!("no {pointer}"),
    }
}

/// The problems of a document, each of which says what to do.
#[must_use]
pub fn problems(bytes: &[u8]) -> Vec<Problem> {
    let problems = match lashwork_wire::report(bytes) {
        Ok(report) => panic!("accepted: {:?}", report.title),
        Err(problems) => problems,
    };
    for problem in &problems {
        assert!(!problem.message.trim().is_empty(), "{problem:?}");
        assert!(!problem.hint.trim().is_empty(), "{problem:?}");
    }
    problems
}

/// Place and code of each.
#[must_use]
pub fn places(problems: &[Problem]) -> Vec<(&str, &str)> {
    problems
        .iter()
        .map(|p| (p.place.as_str(), p.code.as_str()))
        .collect()
}

/// Asserts that a document has exactly one problem, and gives it back.
#[allow(
    clippy::must_use_candidate,
    reason = "most callers only want the check"
)]
pub fn only(bytes: &[u8], place: &str, code: &str) -> Problem {
    let found = problems(bytes);
    assert_eq!(places(&found), [(place, code)], "{found:?}");
    found
        .into_iter()
        .next()
        .unwrap_or_else(|| panic!("no problem"))
}
