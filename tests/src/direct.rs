//! Cases for the calls that bindings offer without a document, and Rust's own answer to them.
//!
//! # Format
//! `tests/direct/*.json`: `{"format": 1, "cases": [...]}`; a case has `id`, `why`, `call`, `in` and
//! either `out` or `refused`.
//! - `call` names a call of the C header without its `lw_`; `in` is what [`answer`] reads for it, in
//!   order: numbers, texts, lists of numbers, `null` for what is left out and, in a list, for what is
//!   not a number. A structure stands as its fields. Enumerations are the numbers of the header.
//! - `out` is what comes out, in order: a number that may have a fraction as `"0x"` and the sixteen
//!   hexadecimal digits of its bits, most significant first; a whole number as such; text as text.
//! - `refused` is the code of the kernel's error instead.
//!
//! A binding answers the inputs with its own means, and its answers are compared as they stand: bits,
//! not decimals. `cargo xtask direct` writes the answers of Rust into the files.

mod balance;
mod calls;
mod condition;
mod history;
mod ignition;
mod mixture;
mod timing;

use crate::vectors::file_name;
use crate::{list, root, text};
use serde_json::{Value, json};
use std::fmt::Write as _;
use std::path::PathBuf;

/// One call with its inputs, and what must come out.
#[derive(Clone, Debug, PartialEq)]
pub struct Case {
    /// A name that never changes.
    pub id: String,
    /// The file it stands in, without its folder.
    pub file: String,
    /// The call.
    pub call: String,
    /// Its inputs.
    pub input: Vec<Value>,
    /// What comes out, or the code of the refusal.
    pub output: Result<Vec<Value>, String>,
}

/// The files of cases.
///
/// # Errors
/// Why the folder cannot be read.
pub fn files() -> Result<Vec<PathBuf>, String> {
    let folder = root().join("tests/direct");
    let entries = std::fs::read_dir(&folder).map_err(|why| format!("tests/direct: {why}"))?;
    let mut files: Vec<PathBuf> = entries.flatten().map(|entry| entry.path()).collect();
    files.retain(|path| path.extension().is_some_and(|ending| ending == "json"));
    files.sort();
    Ok(files)
}

/// Every case.
///
/// # Errors
/// What is wrong with the files.
pub fn read() -> Result<Vec<Case>, String> {
    let mut cases: Vec<Case> = Vec::new();
    for path in files()? {
        let file = file_name(&path);
        for case in list(&document(&path)?, "cases") {
            let id = text(case, "id").to_owned();
            if text(case, "why").is_empty() || cases.iter().any(|known| known.id == id) {
                return Err(format!("{id} is there twice or does not say why"));
            }
            let output = match (case.get("out"), case.get("refused")) {
                (Some(Value::Array(out)), None) => Ok(out.clone()),
                (None, Some(Value::String(code))) => Err(code.clone()),
                _ => return Err(format!("{id} needs one of out and refused")),
            };
            cases.push(Case {
                id,
                file: file.clone(),
                call: text(case, "call").to_owned(),
                input: list(case, "in").to_vec(),
                output,
            });
        }
    }
    Ok(cases)
}

fn document(file: &PathBuf) -> Result<Value, String> {
    let name = file.display();
    let bytes = std::fs::read(file).map_err(|why| format!("{name}: {why}"))?;
    let document: Value = serde_json::from_slice(&bytes).map_err(|why| format!("{name}: {why}"))?;
    match document.get("format").and_then(Value::as_u64) {
        Some(1) => Ok(document),
        _ => Err(format!("{name}: not of format 1")),
    }
}

/// Writes Rust's answers into the files.
///
/// # Errors
/// What is wrong with the files.
pub fn write() -> Result<(), String> {
    for file in files()? {
        let document = document(&file)?;
        let mut text = String::from("{\n  \"format\": 1,\n  \"cases\": [\n");
        let cases = list(&document, "cases");
        for (at, case) in cases.iter().enumerate() {
            let comma = if at + 1 < cases.len() { "," } else { "" };
            let call = crate::text(case, "call");
            let (key, value) = match calls::answer(call, list(case, "in")) {
                Ok(out) => ("out", json!(out)),
                Err(code) => ("refused", json!(code)),
            };
            let [id, why, called] = ["id", "why", "call"].map(|key| json!(crate::text(case, key)));
            let input = json!(list(case, "in"));
            let _ = writeln!(
                text,
                "    {{ \"id\": {id}, \"why\": {why},\n      \"call\": {called}, \"in\": {input},\n      \
                 \"{key}\": {value} }}{comma}"
            );
        }
        text.push_str("  ]\n}\n");
        std::fs::write(&file, text).map_err(|why| format!("{}: {why}", file.display()))?;
    }
    Ok(())
}

/// Rust's answer to a call: what comes out, or the code of the refusal.
///
/// # Errors
/// The code of the kernel's error.
///
/// # Panics
/// If the inputs are not those of the call.
pub fn answer(call: &str, input: &[Value]) -> Result<Vec<Value>, String> {
    calls::answer(call, input)
}

/// All cases as lines for programs without a JSON reader: name, call and inputs, tabs between them;
/// commas between the numbers of a list, `-` for what is left out.
///
/// # Errors
/// What is wrong with the files.
pub fn lines() -> Result<String, String> {
    let mut text = String::new();
    for case in read()? {
        let _ = write!(text, "{}\t{}", case.id, case.call);
        for value in &case.input {
            let _ = write!(text, "\t{}", plain(value));
        }
        text.push('\n');
    }
    Ok(text)
}

/// What a program without a JSON writer must answer to [`lines`]: name, then `ok` and what comes out,
/// or the code of the refusal.
///
/// # Errors
/// What is wrong with the files.
pub fn expected_lines() -> Result<String, String> {
    let mut text = String::new();
    for case in read()? {
        let _ = writeln!(text, "{}\t{}", case.id, answer_line(&case.output));
    }
    Ok(text)
}

/// An answer as it stands in a line, behind the name of its case.
#[must_use]
pub fn answer_line(answer: &Result<Vec<Value>, String>) -> String {
    match answer {
        Ok(out) => out
            .iter()
            .fold("ok".to_owned(), |line, value| line + "\t" + &plain(value)),
        Err(code) => code.clone(),
    }
}

fn plain(value: &Value) -> String {
    match value {
        Value::Null => "-".to_owned(),
        Value::String(text) => text.clone(),
        Value::Array(items) => items.iter().map(item).collect::<Vec<_>>().join(","),
        other => other.to_string(),
    }
}

/// A number of a list; `null` among them is not a number.
fn item(value: &Value) -> String {
    if value.is_null() {
        return "nan".to_owned();
    }
    plain(value)
}

/// The bits of a number, as the cases write them.
#[must_use]
pub fn bits(number: f64) -> Value {
    // Only what a number is counts, not which of its bit patterns a NaN has.
    let number = if number.is_nan() { f64::NAN } else { number };
    json!(format!("0x{:016x}", number.to_bits()))
}
