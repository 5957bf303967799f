//! Every shared vector and every example with the answer of the JSON interface, as JSON; and the quick
//! checks that the vectors hold.
//!
//! Tests in other languages compare theirs with these, byte by byte.

use crate::Outcome;
use lashwork_tests::{quick, root, vectors};
use serde_json::{Value, json};
use std::error::Error;
use std::fs;

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
    fs::write(file, json!({ "jobs": cases, "checks": checks }).to_string())?;
    Ok(())
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
