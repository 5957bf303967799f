//! The largest documents there may be, texts that are none, and thousands of documents in a row: time and memory.
#![allow(
    clippy::expect_used,
    reason = "ends with the reason if its set-up fails"
)]

use lashwork_benches::largest::{grown, hostile};
use serde_json::Value;
use std::fs;
use std::time::{Duration, Instant};

/// No answer takes longer, and none more memory in kB, on the machines this was tried on.
const LONGEST: Duration = Duration::from_secs(10);
const MOST: u64 = 512 * 1024;
/// What a process may grow by, in kB, while it answers one document after the other.
const FLAT: u64 = 512;
const IN_A_ROW: usize = 10_000;

fn main() {
    let documents = documents();
    let mut all_within = true;
    println!("the largest each may become\tbytes\tms\tkB above what was there");
    for (name, document) in &documents {
        let largest = grown(document.clone(), LONGEST / 4);
        all_within &= measured(name, largest.to_string().as_bytes(), true);
    }
    for (name, text) in hostile() {
        all_within &= measured(name, &text, false);
    }
    let texts: Vec<String> = documents
        .iter()
        .map(|(_, document)| document.to_string())
        .collect();
    let mut all = texts.iter().cycle();
    let mut some = |count: usize| {
        let begun = Instant::now();
        for text in all.by_ref().take(count) {
            assert!(!lashwork_wire::run(text.as_bytes()).is_empty());
        }
        begun.elapsed()
    };
    some(IN_A_ROW / 10);
    let before = memory("VmRSS:");
    let took = some(IN_A_ROW);
    let after = memory("VmRSS:");
    println!(
        "{IN_A_ROW} documents in a row: {} ms, {before} kB before, {after} kB after",
        took.as_millis()
    );
    assert!(
        all_within,
        "an answer took longer than {LONGEST:?} or more than {MOST} kB"
    );
    assert!(
        after <= before + FLAT,
        "memory grew by {} kB",
        after - before
    );
}

/// The examples of this repository.
fn documents() -> Vec<(String, Value)> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../examples/data");
    let mut paths: Vec<_> = fs::read_dir(folder)
        .expect("examples")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|it| it == "json"))
        .collect();
    paths.sort();
    let read = |path: &std::path::PathBuf| {
        let name = path
            .file_stem()
            .expect("a name")
            .to_string_lossy()
            .into_owned();
        let text = fs::read(path).expect("a document");
        (name, serde_json::from_slice(&text).expect("JSON"))
    };
    paths.iter().map(read).collect()
}

/// Answers a text once and prints what that took; whether it is within bounds.
fn measured(name: &str, text: &[u8], is_document: bool) -> bool {
    // The peak begins anew at what is there now.
    fs::write("/proc/self/clear_refs", "5").expect("Linux");
    let before = memory("VmRSS:");
    let begun = Instant::now();
    let answer = lashwork_wire::run(text);
    let took = begun.elapsed();
    let peak = memory("VmHWM:").saturating_sub(before);
    let is_report = answer.starts_with(b"{\"report\"");
    println!("{name}\t{}\t{}\t{peak}", text.len(), took.as_millis());
    is_report == is_document && took < LONGEST && peak < MOST
}

/// A line of what the system knows of this process, in kB.
fn memory(line: &str) -> u64 {
    let said = fs::read_to_string("/proc/self/status").expect("Linux");
    let found = said.lines().find_map(|it| it.strip_prefix(line));
    let number = found.and_then(|it| it.split_whitespace().next());
    number
        .and_then(|it| it.parse().ok())
        .expect("a number of kB")
}
