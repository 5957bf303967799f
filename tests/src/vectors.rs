//! The shared vectors and their one judge.

use crate::{list, root, text};
use approx::abs_diff_eq;
use serde_json::Value;
use std::path::{Path, PathBuf};

/// A way to ask the kernel: request bytes in, answer bytes out.
pub type Door = fn(&[u8]) -> Vec<u8>;

/// One request and what its answer must hold.
#[derive(Clone, Debug)]
pub struct Vector {
    /// A name that never changes: area and number.
    pub id: String,
    /// The file it stands in, without its folder.
    pub file: String,
    /// The bytes to ask with.
    pub request: Vec<u8>,
    /// Pairs of a pointer into the answer and the value there. A step `*` gathers all items of a
    /// list.
    pub expect: Vec<(String, Value)>,
    /// How far a number may be off.
    pub within: f64,
}

impl Vector {
    /// Every way in which an answer differs from what is expected.
    #[must_use]
    pub fn differences(&self, answer: &[u8]) -> Vec<String> {
        let got: Value = match serde_json::from_slice(answer) {
            Ok(got) => got,
            Err(why) => return vec![format!("{}: the answer is not JSON: {why}", self.id)],
        };
        let mut found = Vec::new();
        for (pointer, expected) in &self.expect {
            let outcome = match pick(&got, pointer) {
                Some(got) => same(expected, &got, self.within),
                None => Err(format!(": nothing stands there, expected {expected}")),
            };
            if let Err(why) = outcome {
                found.push(format!("{}: {pointer}{why}", self.id));
            }
        }
        if !found.is_empty()
            && let Some(problems) = got.get("problems")
        {
            found.push(format!("{} was answered with {problems}", self.id));
        }
        found
    }
}

/// The files of shared vectors.
#[must_use]
pub fn folder() -> PathBuf {
    root().join("tests/vectors")
}

/// Reads every vector of a folder.
///
/// # Errors
/// Everything wrong with the files, and that there is none.
pub fn read(folder: &Path) -> Result<Vec<Vector>, String> {
    let entries =
        std::fs::read_dir(folder).map_err(|why| format!("{}: {why}", folder.display()))?;
    let mut files: Vec<PathBuf> = entries
        .flatten()
        .map(|entry| entry.path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "json"))
        .collect();
    files.sort();
    let mut vectors: Vec<Vector> = Vec::new();
    for path in files {
        let name = path.display();
        let file = file_name(&path);
        let bytes = std::fs::read(&path).map_err(|why| format!("{name}: {why}"))?;
        let document: Value =
            serde_json::from_slice(&bytes).map_err(|why| format!("{name}: {why}"))?;
        if document.get("format").and_then(Value::as_u64) != Some(1) {
            return Err(format!("{name}: not of format 1"));
        }
        for case in list(&document, "cases") {
            let vector = vector(case, &file).map_err(|why| format!("{name}: {why}"))?;
            if vectors.iter().any(|known| known.id == vector.id) {
                return Err(format!("{name}: two vectors are called {}", vector.id));
            }
            vectors.push(vector);
        }
    }
    if vectors.is_empty() {
        return Err(format!("{}: no vectors", folder.display()));
    }
    Ok(vectors)
}

/// The name of a file without its folder.
pub(crate) fn file_name(path: &Path) -> String {
    let name = path.file_name().unwrap_or_default();
    name.to_string_lossy().into_owned()
}

fn vector(case: &Value, file: &str) -> Result<Vector, String> {
    let id = text(case, "id").to_owned();
    for key in ["why", "source"] {
        if text(case, key).trim().is_empty() {
            return Err(format!("{id} does not say its {key}"));
        }
    }
    let request = match (case.get("request"), case.get("request_text")) {
        (Some(document), None) => document.to_string().into_bytes(),
        (None, Some(Value::String(text))) => text.clone().into_bytes(),
        _ => return Err(format!("{id} needs one of request and request_text")),
    };
    let expect: Vec<(String, Value)> = case
        .get("expect")
        .and_then(Value::as_object)
        .into_iter()
        .flatten()
        .map(|(pointer, value)| (pointer.clone(), value.clone()))
        .collect();
    if expect.is_empty() {
        return Err(format!("{id} expects nothing"));
    }
    let within = case.get("within").and_then(Value::as_f64);
    match within {
        Some(within) if within >= 0.0 => Ok(Vector {
            id,
            file: file.to_owned(),
            request,
            expect,
            within,
        }),
        _ => Err(format!("{id} does not say within what")),
    }
}

/// The value at a JSON pointer; a step `*` gathers over a list.
#[must_use]
pub fn pick(value: &Value, pointer: &str) -> Option<Value> {
    let Some((before, after)) = pointer.split_once("/*") else {
        return value.pointer(pointer).cloned();
    };
    let items = value.pointer(before)?.as_array()?;
    items.iter().map(|item| pick(item, after)).collect()
}

/// Compares two values: numbers within `within`, all else exactly.
///
/// # Errors
/// The path of the first difference, with both values.
pub fn same(expected: &Value, got: &Value, within: f64) -> Result<(), String> {
    compare("", expected, got, within)
}

fn compare(path: &str, expected: &Value, got: &Value, within: f64) -> Result<(), String> {
    match (expected, got) {
        (Value::Number(e), Value::Number(g)) => match (e.as_f64(), g.as_f64()) {
            (Some(e), Some(g)) if abs_diff_eq!(e, g, epsilon = within) => Ok(()),
            _ => Err(format!("{path}: expected {e} within {within}, got {g}")),
        },
        (Value::Array(e), Value::Array(g)) => {
            if e.len() != g.len() {
                return Err(format!(
                    "{path}: expected {} items, got {}: {expected} and {got}",
                    e.len(),
                    g.len()
                ));
            }
            let mut pairs = e.iter().zip(g).enumerate();
            pairs.try_for_each(|(i, (e, g))| compare(&format!("{path}/{i}"), e, g, within))
        }
        (Value::Object(e), Value::Object(g)) => {
            for (key, e) in e {
                let path = format!("{path}/{key}");
                match g.get(key) {
                    Some(g) => compare(&path, e, g, within)?,
                    None => return Err(format!("{path}: missing")),
                }
            }
            match g.keys().find(|key| !e.contains_key(*key)) {
                Some(extra) => Err(format!("{path}/{extra}: not expected")),
                None => Ok(()),
            }
        }
        _ if expected == got => Ok(()),
        _ => Err(format!("{path}: expected {expected}, got {got}")),
    }
}
