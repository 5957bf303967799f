//! The program itself, started as users start it.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    reason = "a test stops at the first surprise"
)]

mod documents;
mod judged;
mod refused;
mod streamed;
mod words;

use serde_json::Value;
use std::io::Write;
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};

/// What a run of the program gave.
struct Run {
    code: i32,
    out: Vec<u8>,
    err: String,
}

impl Run {
    fn text(&self) -> &str {
        std::str::from_utf8(&self.out).unwrap()
    }

    fn json(&self) -> Value {
        serde_json::from_slice(&self.out).unwrap()
    }

    /// The codes of the problems in a JSON answer.
    fn codes(&self) -> Vec<String> {
        let answer = self.json();
        let problems = answer["problems"].as_array().unwrap();
        let code = |problem: &Value| problem["code"].as_str().unwrap().to_owned();
        problems.iter().map(code).collect()
    }

    /// The rows of a CSV answer, the names first.
    fn rows(&self) -> Vec<Vec<String>> {
        let mut reader = csv::ReaderBuilder::new()
            .has_headers(false)
            .from_reader(self.out.as_slice());
        let fields = |row: csv::StringRecord| row.iter().map(str::to_owned).collect();
        reader.records().map(|row| fields(row.unwrap())).collect()
    }

    /// A field of a CSV answer; rows count from 1, the names stand in row 0.
    fn field(&self, row: usize, name: &str) -> String {
        let rows = self.rows();
        let at = rows[0].iter().position(|one| one == name).unwrap();
        rows[row][at].clone()
    }
}

fn program() -> Command {
    Command::new(env!("CARGO_BIN_EXE_lashwork"))
}

/// The program with words, begun, its streams at hand.
fn begun(words: &[&str]) -> Child {
    program()
        .args(words)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap()
}

/// Runs the program with words and what it finds on standard input.
fn run(words: &[&str], input: impl AsRef<[u8]>) -> Run {
    let mut child = begun(words);
    let mut stdin = child.stdin.take().unwrap();
    let bytes = input.as_ref().to_vec();
    let writer = std::thread::spawn(move || {
        // A program that needs no more closes the pipe.
        let _ = stdin.write_all(&bytes);
    });
    let done = child.wait_with_output().unwrap();
    writer.join().unwrap();
    Run {
        code: done.status.code().unwrap(),
        out: done.stdout,
        err: String::from_utf8(done.stderr).unwrap(),
    }
}

/// A file of `examples/data`.
fn example(name: &str) -> PathBuf {
    let own = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    own.join("../../examples/data").join(name)
}
