//! What every door into the kernel is asked, and the one judge of its answers.

use crate::Outcome;
use lashwork_tests::direct;
use lashwork_tests::vectors::{self, Vector};
use std::fs;
use std::path::Path;

/// What stands in the answer to a document: the report, and both sheets, or why there is none.
pub(crate) const KINDS: [&str; 3] = ["answer", "sheet", "full"];

/// Where the answers to direct calls stand.
pub(crate) const CALLS: &str = "direct.tsv";

/// The list of the documents that a folder of requests holds.
const NAMES: &str = "names.txt";

/// Writes documents and direct calls where a door finds them: all of the shared vectors, or one of each
/// area for a tool under which a program is slow; what that sees does not hang on what a document says.
pub(crate) fn write(folder: &Path, one_of_each_area: bool) -> Outcome {
    let mut vectors = vectors::read(&vectors::folder())?;
    if one_of_each_area {
        vectors.dedup_by(|next, one| area(next) == area(one));
    }
    fs::create_dir_all(folder)?;
    let mut names = String::new();
    for vector in &vectors {
        let path = folder.join(format!("{}.request", vector.id));
        fs::write(&path, &vector.request).map_err(|why| format!("{}: {why}", path.display()))?;
        names.push_str(&vector.id);
        names.push('\n');
    }
    fs::write(folder.join(NAMES), names)?;
    Ok(fs::write(folder.join(CALLS), direct::lines()?)?)
}

/// What the name of a vector begins with.
fn area(vector: &Vector) -> &str {
    vector.id.split('-').next().unwrap_or_default()
}

/// Compares what a door answered with what Rust answers: documents byte for byte, numbers bit for bit.
pub(crate) fn compare(door: &str, requests: &Path, answers: &Path) -> Outcome {
    let names = read(&requests.join(NAMES))?;
    let asked: Vec<&str> = names.lines().collect();
    let mut vectors = vectors::read(&vectors::folder())?;
    vectors.retain(|vector| asked.contains(&vector.id.as_str()));
    if vectors.is_empty() || vectors.len() != asked.len() {
        return Err(format!("{door}: {} vectors are gone", asked.len() - vectors.len()).into());
    }
    let mut all = vectors.iter();
    let calls = all
        .try_for_each(|vector| compare_documents(vector, answers))
        .and_then(|()| compare_calls(&answers.join(CALLS)))
        .map_err(|why| format!("{door}: {why}"))?;
    println!(
        "{door}: {} documents the same bytes as from Rust, {calls} direct calls the same bits",
        vectors.len(),
    );
    Ok(())
}

/// What Rust answers to a document, in the order of [`KINDS`].
pub(crate) fn answer(vector: &Vector) -> [Vec<u8>; 3] {
    let (page, full) = match lashwork_wire::report(&vector.request) {
        Ok(report) => (report.sheet(), report.full_sheet()),
        Err(problems) => {
            let code = problems.first().map_or("", |p| p.code.as_str());
            (code.to_owned(), code.to_owned())
        }
    };
    let report = lashwork_wire::run(&vector.request);
    [report, page.into_bytes(), full.into_bytes()]
}

/// The report and both sheets of one document.
fn compare_documents(vector: &Vector, answers: &Path) -> Result<(), String> {
    let id = &vector.id;
    let expected = answer(vector);
    for (kind, expected) in KINDS.iter().zip(&expected) {
        if read(&answers.join(format!("{id}.{kind}")))?.as_bytes() != expected {
            return Err(format!("the {kind} of {id} differs from Rust's"));
        }
    }
    let [report, ..] = expected;
    match vector.differences(&report).first() {
        Some(why) => Err(why.clone()),
        None => Ok(()),
    }
}

/// The calls without a document: how many there are, or what differs.
fn compare_calls(file: &Path) -> Result<usize, String> {
    let (got, expected) = (read(file)?, direct::expected_lines()?);
    let [answered, asked] = [&got, &expected].map(|lines| lines.lines().count());
    if answered != asked {
        return Err(format!("{answered} direct calls answered of {asked}"));
    }
    let differing: Vec<String> = got
        .lines()
        .zip(expected.lines())
        .filter(|(got, expected)| got != expected)
        .map(|(got, expected)| format!("answered\n  {got}, Rust\n  {expected}"))
        .collect();
    if !differing.is_empty() {
        return Err(format!("direct calls differ:\n{}", differing.join("\n")));
    }
    Ok(asked)
}

pub(crate) fn read(path: &Path) -> Result<String, String> {
    fs::read_to_string(path).map_err(|why| format!("{}: {why}", path.display()))
}
