//! The schema handed out is the one of the types, and agrees with the reader on the examples.

use lashwork_tests::{examples, vectors};
use serde_json::Value;
use std::error::Error;

fn validator() -> Result<jsonschema::Validator, Box<dyn Error>> {
    let schema: Value = serde_json::from_str(lashwork_wire::document_schema())?;
    Ok(jsonschema::validator_for(&schema)?)
}

#[test]
fn the_schema_handed_out_is_the_one_of_the_types() {
    let of_the_types = lashwork_wire::schema::document();
    assert!(
        lashwork_wire::document_schema() == of_the_types,
        "run `cargo xtask schema`"
    );
}

#[test]
fn every_example_keeps_to_the_schema() -> Result<(), Box<dyn Error>> {
    let validator = validator()?;
    for (name, bytes) in examples() {
        let document: Value = serde_json::from_slice(&bytes)?;
        let errors: Vec<String> = validator
            .iter_errors(&document)
            .map(|e| format!("{}: {e}", e.instance_path))
            .collect();
        assert!(errors.is_empty(), "{name}:\n{}", errors.join("\n"));
    }
    Ok(())
}

/// What the reader accepts, the schema accepts; what the schema refuses, the reader refuses.
#[test]
fn the_schema_is_no_stricter_than_the_reader() -> Result<(), Box<dyn Error>> {
    let validator = validator()?;
    let mut accepted = 0;
    for vector in vectors::read(&vectors::folder())? {
        if lashwork_wire::read(&vector.request).is_ok() {
            let document: Value = serde_json::from_slice(&vector.request)?;
            assert!(validator.is_valid(&document), "{}", vector.id);
            accepted += 1;
        }
    }
    assert!(accepted > 0, "no vector is accepted");
    Ok(())
}

#[test]
fn the_schema_refuses_shapes_the_reader_refuses() -> Result<(), Box<dyn Error>> {
    let validator = validator()?;
    for text in [
        "[]",
        "{}",
        "{\"lashwork\": \"1\"}",
        "{\"lashwork\": 1, \"titel\": \"x\"}",
    ] {
        assert!(!validator.is_valid(&serde_json::from_str(text)?), "{text}");
        assert!(lashwork_wire::read(text.as_bytes()).is_err(), "{text}");
    }
    Ok(())
}
