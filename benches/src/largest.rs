//! Documents made as large as they may be: every list in them is repeated until the document is refused.

use serde_json::{Map, Value};
use std::time::{Duration, Instant};

/// Fields that tell things apart, so that a copy may need another.
const NAMES: [&str; 3] = ["id", "label", "name"];

/// Lets every list of the document grow while it is accepted and answered within `patience`.
#[must_use]
pub fn grown(mut document: Value, patience: Duration) -> Value {
    let mut took = accepted(&document).unwrap_or_default();
    for place in lists(&document) {
        for renamed in [false, true] {
            while took < patience {
                let mut larger = document.clone();
                let Some(Value::Array(list)) = larger.pointer_mut(&place) else {
                    break;
                };
                let before = list.len();
                let copies: Vec<Value> = list
                    .iter()
                    .enumerate()
                    .map(|(at, item)| copy(item, before + at, renamed))
                    .collect();
                list.extend(copies);
                let answered = accepted(&larger).or_else(|| {
                    // Twice as long was too much: perhaps the list ends in between.
                    let list = larger.pointer_mut(&place)?.as_array_mut()?;
                    list.truncate(before + before.div_ceil(2));
                    accepted(&larger)
                });
                let Some(answered) = answered else { break };
                (document, took) = (larger, answered);
            }
        }
    }
    document
}

fn copy(item: &Value, number: usize, renamed: bool) -> Value {
    let mut made = item.clone();
    if let (true, Value::Object(fields)) = (renamed, &mut made) {
        for (field, said) in fields.iter_mut() {
            if let (true, Value::String(text)) = (NAMES.contains(&field.as_str()), said) {
                *text = format!("{text} {number}");
            }
        }
    }
    made
}

/// How long the answer took, unless the document is refused.
fn accepted(document: &Value) -> Option<Duration> {
    let text = document.to_string();
    let begun = Instant::now();
    let answer = lashwork_wire::report(text.as_bytes());
    answer.is_ok().then(|| begun.elapsed())
}

/// The places of all lists that hold something.
fn lists(document: &Value) -> Vec<String> {
    let mut found = Vec::new();
    walk(document, String::new(), &mut found);
    found
}

fn walk(value: &Value, place: String, found: &mut Vec<String>) {
    match value {
        Value::Array(items) if !items.is_empty() => {
            for (at, item) in items.iter().enumerate() {
                walk(item, format!("{place}/{at}"), found);
            }
            found.push(place);
        }
        Value::Object(fields) => {
            for (field, item) in fields {
                walk(item, format!("{place}/{field}"), found);
            }
        }
        _ => {}
    }
}

/// Texts of the largest size that is read, which are no document.
#[must_use]
pub fn hostile() -> Vec<(&'static str, Vec<u8>)> {
    let most = lashwork_wire::MAX_BYTES;
    let unknown: Map<String, Value> = (0..most / 32)
        .map(|number| (format!("unknown {number:08}"), Value::from(number)))
        .collect();
    let problems = format!(
        "{{\"lashwork\":1,\"engine\":[{}0]}}",
        "{},".repeat(most / 4)
    );
    vec![
        ("brackets without an end", vec![b'['; most]),
        (
            "one text without an end",
            format!("\"{}", "x".repeat(most - 1)).into_bytes(),
        ),
        (
            "fields nobody knows",
            Value::Object(unknown).to_string().into_bytes(),
        ),
        ("a list in place of an engine", problems.into_bytes()),
        ("bytes that are no text", vec![0xff; most]),
        ("one byte too many", vec![b' '; most + 1]),
    ]
}
