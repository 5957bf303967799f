//! What every door into the kernel is asked, and the one judge of its answers.

use super::{read, write};
use crate::output::say;
use crate::own::target;
use crate::step::Outcome;
use lashwork_tests::direct;
use lashwork_tests::vectors::{self, Vector};
use std::fs;
use std::path::{Path, PathBuf};

/// Where programs and answers go.
pub(crate) fn place(name: &str) -> PathBuf {
    target().join("c").join(name)
}

/// Documents and direct calls that doors are asked, written where each of them finds them.
pub(crate) struct Requests {
    /// Where they stand.
    pub(crate) folder: PathBuf,
    vectors: Vec<Vector>,
}

impl Requests {
    /// All the shared vectors.
    pub(crate) fn all() -> Result<Self, String> {
        Self::write("requests", vectors::read(&vectors::folder())?)
    }

    /// One vector of each area, for a tool under which a program is slow: what it sees does not hang on
    /// what a document says.
    pub(crate) fn one_of_each_area(&self) -> Result<Self, String> {
        let area = |vector: &Vector| vector.id.split('-').next().unwrap_or_default().to_owned();
        let areas = self.vectors.chunk_by(|one, next| area(one) == area(next));
        let first = areas.filter_map(<[_]>::first).cloned();
        Self::write("requests-one-of-each", first.collect())
    }

    fn write(name: &str, vectors: Vec<Vector>) -> Result<Self, String> {
        let folder = place(name);
        let mut names = String::new();
        for vector in &vectors {
            let path = folder.join(format!("{}.request", vector.id));
            write(&path, "")?;
            fs::write(&path, &vector.request)
                .map_err(|why| format!("{}: {why}", path.display()))?;
            names.push_str(&vector.id);
            names.push('\n');
        }
        write(&folder.join("names.txt"), &names)?;
        write(&folder.join("direct.tsv"), &direct::lines()?)?;
        Ok(Self { folder, vectors })
    }
}

/// An empty folder for the answers of a door.
pub(crate) fn answers(door: &str) -> Result<PathBuf, String> {
    let folder = place(&format!("answers/{door}"));
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).map_err(|why| format!("{}: {why}", folder.display()))?;
    Ok(folder)
}

/// Compares what a door answered with what Rust answers: documents byte for byte, numbers bit for bit.
pub(crate) fn compare(door: &str, requests: &Requests, answers: &Path) -> Outcome {
    let vectors = &requests.vectors;
    for vector in vectors {
        let answer = read(&answers.join(format!("{}.answer", vector.id)))?;
        if answer.as_bytes() != lashwork_wire::run(&vector.request) {
            return Err(format!(
                "{door}: the answer to {} differs from Rust's",
                vector.id
            ));
        }
        let (page, full) = match lashwork_wire::report(&vector.request) {
            Ok(report) => (report.sheet(), report.full_sheet()),
            Err(problems) => {
                let code = problems.first().map_or("", |p| p.code.as_str());
                (code.to_owned(), code.to_owned())
            }
        };
        for (kind, expected) in [("sheet", page), ("full", full)] {
            if read(&answers.join(format!("{}.{kind}", vector.id)))? != expected {
                return Err(format!(
                    "{door}: the {kind} of {} differs from Rust's",
                    vector.id
                ));
            }
        }
        if let Some(why) = vector.differences(answer.as_bytes()).first() {
            return Err(format!("{door}: {why}"));
        }
    }
    let got = read(&answers.join("direct.tsv"))?;
    let expected = direct::expected_lines()?;
    let differing: Vec<String> = got
        .lines()
        .zip(expected.lines())
        .filter(|(got, expected)| got != expected)
        .map(|(got, expected)| format!("{door} answered\n  {got}, Rust\n  {expected}"))
        .collect();
    if got.lines().count() != expected.lines().count() || !differing.is_empty() {
        return Err(format!(
            "{door}: direct calls differ:\n{}",
            differing.join("\n")
        ));
    }
    say!(
        "{door}: {} documents the same bytes as from Rust, {} direct calls the same bits",
        vectors.len(),
        expected.lines().count()
    );
    Ok(())
}
