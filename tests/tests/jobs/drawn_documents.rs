//! What holds of documents that are drawn from bytes by their schema: of the corpus of the fuzz target, and of new ones.

use fastrand::Rng;
use lashwork_tests::drawn::{Answered, Drawer, hold};
use lashwork_tests::root;
use serde_json::Value;
use std::collections::BTreeSet;
use std::error::Error;
use std::fs;

/// Documents that are drawn anew here.
const DRAWN: u32 = 300;

fn bytes(rng: &mut Rng) -> Vec<u8> {
    (0..200).map(|_| rng.u8(..)).collect()
}

#[test]
fn what_is_drawn_is_answered_as_it_must_be() -> Result<(), Box<dyn Error>> {
    let (drawer, mut rng, mut reports) = (Drawer::new()?, Rng::with_seed(11), 0);
    for _ in 0..DRAWN {
        let document = drawer.document(&bytes(&mut rng));
        match hold(&document) {
            Ok(Answered::Report) => reports += 1,
            Ok(Answered::Problems) => {}
            Err(why) => return Err(format!("{why}\n{document}").into()),
        }
    }
    // Both ways are gone often.
    assert!(
        (DRAWN / 10..DRAWN * 9 / 10).contains(&reports),
        "{reports} reports"
    );
    Ok(())
}

#[test]
fn the_corpus_is_answered_as_it_must_be() -> Result<(), Box<dyn Error>> {
    let (drawer, mut files) = (Drawer::new()?, 0);
    for entry in fs::read_dir(root().join("bindings/c/fuzz/corpus/drawn_document"))? {
        let path = entry?.path();
        let document = drawer.document(&fs::read(&path)?);
        hold(&document).map_err(|why| format!("{}: {why}\n{document}", path.display()))?;
        files += 1;
    }
    assert!(files > 0);
    Ok(())
}

/// The names of all fields of objects in a schema, and of those in a document.
fn names(value: &Value, of_schema: bool, found: &mut BTreeSet<String>) {
    match value {
        Value::Object(fields) if of_schema => {
            if let Some(known) = fields.get("properties").and_then(Value::as_object) {
                found.extend(known.keys().cloned());
            }
            fields
                .values()
                .for_each(|inner| names(inner, of_schema, found));
        }
        Value::Object(fields) => {
            found.extend(fields.keys().cloned());
            fields
                .values()
                .for_each(|inner| names(inner, of_schema, found));
        }
        Value::Array(items) => items
            .iter()
            .for_each(|inner| names(inner, of_schema, found)),
        _ => {}
    }
}

/// All but a few that stand deep in what is seldom there.
#[test]
fn the_fields_of_the_schema_are_drawn() -> Result<(), Box<dyn Error>> {
    let (drawer, mut rng) = (Drawer::new()?, Rng::with_seed(5));
    let (mut known, mut drawn) = (BTreeSet::new(), BTreeSet::new());
    let schema: Value = serde_json::from_str(lashwork_wire::document_schema())?;
    names(&schema, true, &mut known);
    for _ in 0..10_000 {
        names(&drawer.document(&bytes(&mut rng)), false, &mut drawn);
        if known.is_subset(&drawn) {
            return Ok(());
        }
    }
    let lacking: Vec<_> = known.difference(&drawn).collect();
    assert!(
        lacking.len() * 25 < known.len(),
        "never drawn of {}: {lacking:?}",
        known.len()
    );
    Ok(())
}
