//! A line for every vector: the file it stands in, its name, and a digest of its answer.
//!
//! What runs elsewhere, as another build, on another processor or from another language, must give the same
//! lines.

use crate::Outcome;
use crate::doors::{CALLS, KINDS, answer, read};
use lashwork_tests::bits::{NOT_OFFERED, digest, line};
use lashwork_tests::direct::{self, Case};
use lashwork_tests::vectors::{self, Vector};
use std::collections::BTreeMap;
use std::io::Write;
use std::path::Path;

/// Prints the lines of what this program answers where it runs.
pub(crate) fn of_this_machine() -> Outcome {
    print(
        |vector| Ok(answer(vector).to_vec()),
        |case| Ok(called(case)),
    )
}

/// Prints the lines of what came through a door.
pub(crate) fn of_a_door(answers: &Path) -> Outcome {
    let calls = read(&answers.join(CALLS))?;
    let calls: BTreeMap<&str, &str> = calls
        .lines()
        .filter_map(|line| line.split_once('\t'))
        .collect();
    let document = |vector: &Vector| {
        let texts = KINDS.iter().map(|kind| {
            let text = read(&answers.join(format!("{}.{kind}", vector.id)))?;
            Ok(text.into_bytes())
        });
        texts.collect()
    };
    let call = |case: &Case| match calls.get(case.id.as_str()) {
        Some(answer) => Ok((*answer).to_owned()),
        None => Err(format!("{}: no answer to {}", answers.display(), case.id)),
    };
    print(document, call)
}

/// Prints what the digest of a vector is made of.
pub(crate) fn show(name: &str) -> Outcome {
    let vectors = vectors::read(&vectors::folder())?;
    if let Some(vector) = vectors.iter().find(|vector| vector.id == name) {
        for text in answer(vector) {
            println!("{}", String::from_utf8(text)?);
        }
        return Ok(());
    }
    let cases = direct::read()?;
    let case = cases.iter().find(|case| case.id == name);
    println!("{}", called(case.ok_or(format!("no vector {name}"))?));
    Ok(())
}

/// What Rust answers to a direct call.
fn called(case: &Case) -> String {
    direct::answer_line(&direct::answer(&case.call, &case.input))
}

/// All lines, by what answers documents and what answers direct calls.
fn print(
    document: impl Fn(&Vector) -> Result<Vec<Vec<u8>>, String>,
    call: impl Fn(&Case) -> Result<String, String>,
) -> Outcome {
    let mut text = String::new();
    for vector in vectors::read(&vectors::folder())? {
        let texts = document(&vector)?;
        let parts: Vec<&[u8]> = texts.iter().map(Vec::as_slice).collect();
        let file = format!("vectors/{}", vector.file);
        text += &line(&file, &vector.id, &digest(&parts));
    }
    for case in direct::read()? {
        let answer = call(&case)?;
        let digest = match answer.as_str() {
            NOT_OFFERED => NOT_OFFERED.to_owned(),
            answer => digest(&[answer.as_bytes()]),
        };
        text += &line(&format!("direct/{}", case.file), &case.id, &digest);
    }
    Ok(std::io::stdout().write_all(text.as_bytes())?)
}
