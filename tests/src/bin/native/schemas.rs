//! The JSON Schemas as files.

use crate::Outcome;
use lashwork_tests::root;
use lashwork_wire::schema::{document, ignition_check, report};
use std::fs;

const FOLDER: &str = "crates/lashwork-wire/schema";

type Writer = fn() -> String;

/// Each file and what writes it.
const FILES: [(&str, Writer); 3] = [
    ("document.schema.json", document),
    ("ignition_check.schema.json", ignition_check),
    ("report.schema.json", report),
];

/// Writes the schemas as the types have them.
pub(crate) fn write() -> Outcome {
    for (name, schema) in FILES {
        fs::write(root().join(FOLDER).join(name), schema())
            .map_err(|why| format!("{FOLDER}/{name}: {why}"))?;
    }
    Ok(())
}

/// Fails if a file is not what the types say.
pub(crate) fn check() -> Outcome {
    for (name, schema) in FILES {
        let found = fs::read_to_string(root().join(FOLDER).join(name)).unwrap_or_default();
        if found != schema() {
            let told = "is not what the types say; run `cargo xtask schema`";
            return Err(format!("{FOLDER}/{name} {told}").into());
        }
    }
    Ok(())
}
