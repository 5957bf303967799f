//! Every shared vector and every example with the answer of the JSON interface, as JSON; the quick checks that the
//! vectors hold; and documents that are drawn by their schema.
//!
//! Tests in other languages compare theirs with these, byte by byte.

use crate::Outcome;
use fastrand::Rng;
use lashwork_tests::drawn::Drawer;
use lashwork_tests::{quick, root, vectors};
use serde_json::{Value, json};
use std::error::Error;
use std::fs;

/// How many documents are drawn for every run of the tests, and of which seed.
const DRAWN: (u32, u64) = (100, 1);

/// Writes them into a file.
pub(crate) fn write(file: &str) -> Outcome {
    let (mut cases, mut checks) = (Vec::new(), Vec::new());
    for vector in vectors::read(&vectors::folder())? {
        cases.push(case(&vector.id, &vector.request)?);
        let document = serde_json::from_slice(&vector.request).unwrap_or_default();
        for check in quick::checks_of(&document) {
            let asked = check.to_string();
            let answer = String::from_utf8(lashwork_wire::quick_check(asked.as_bytes()))?;
            checks.push(json!({ "id": vector.id, "request": asked, "answer": answer }));
        }
    }
    let mut examples: Vec<_> = fs::read_dir(root().join("examples/data"))?
        .map(|entry| entry.map(|entry| entry.path()))
        .collect::<Result<_, _>>()?;
    examples.retain(|path| path.extension().is_some_and(|ending| ending == "json"));
    examples.sort();
    for path in examples {
        let name = path.file_stem().unwrap_or_default().to_string_lossy();
        cases.push(case(&name, &fs::read(&path)?)?);
    }
    let drawn = drawn(DRAWN)?;
    let all = json!({ "jobs": cases, "checks": checks, "drawn": drawn });
    Ok(fs::write(file, all.to_string())?)
}

/// Writes so many drawn documents of a seed, for a longer run.
pub(crate) fn write_drawn(file: &str, count: &str, seed: &str) -> Outcome {
    let drawn = drawn((count.parse()?, seed.parse()?))?;
    Ok(fs::write(file, json!({ "drawn": drawn }).to_string())?)
}

/// Drawn documents with their answers.
fn drawn((count, seed): (u32, u64)) -> Result<Vec<Value>, Box<dyn Error>> {
    let (drawer, mut rng) = (Drawer::new()?, Rng::with_seed(seed));
    let mut next = |i| {
        let bytes: Vec<u8> = (0..200).map(|_| rng.u8(..)).collect();
        let document = drawer.document(&bytes);
        let checks = quick::checks_of(&document).into_iter().map(|check| {
            let asked = check.to_string();
            let answer = lashwork_wire::quick_check(asked.as_bytes());
            let answer = String::from_utf8(answer)?;
            Ok(json!({ "request": asked, "answer": answer }))
        });
        let checks: Result<Vec<Value>, Box<dyn Error>> = checks.collect();
        let mut one = case(
            &format!("{i} of seed {seed}"),
            document.to_string().as_bytes(),
        )?;
        if let Some(fields) = one.as_object_mut() {
            fields.insert("checks".to_owned(), checks?.into());
        }
        Ok(one)
    };
    (0..count).map(&mut next).collect()
}

fn case(id: &str, request: &[u8]) -> Result<Value, Box<dyn Error>> {
    Ok(json!({
        "id": id,
        "request": std::str::from_utf8(request)?,
        "answer": String::from_utf8(lashwork_wire::run(request))?,
        "sheet": lashwork_wire::job_sheet(request).ok(),
        "full": lashwork_wire::full_sheet(request).ok(),
    }))
}
