//! The page of codes says what the source says, and knows every code that is met.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test stops at the first surprise"
)]

use lashwork_tests::vectors::{folder, read};
use lashwork_tests::{codes, root};
use serde_json::Value;
use std::collections::BTreeSet;
use std::fs;

fn page() -> String {
    fs::read_to_string(root().join(codes::PAGE)).unwrap()
}

#[test]
fn the_page_of_codes_is_what_the_source_says() {
    assert!(page() == codes::page(), "run `cargo xtask codes`");
    let rows = page()
        .lines()
        .filter(|line| line.starts_with("| `"))
        .count();
    assert!(rows > 600, "{rows} codes");
}

#[test]
fn every_code_has_its_words() {
    let page = page();
    let silent: Vec<&str> = page.lines().filter(|line| line.ends_with("|  |")).collect();
    assert!(silent.is_empty(), "{silent:#?}");
}

/// Gathers every text under a key `code`.
fn gather(value: &Value, codes: &mut BTreeSet<String>) {
    match value {
        Value::Object(fields) => {
            let code = fields.get("code").and_then(Value::as_str);
            // Steps and stops have codes of one word, which the schema lists.
            codes.extend(code.filter(|code| code.contains('.')).map(str::to_owned));
            fields.values().for_each(|value| gather(value, codes));
        }
        Value::Array(items) => items.iter().for_each(|item| gather(item, codes)),
        _ => {}
    }
}

#[test]
fn every_code_that_a_vector_meets_is_on_the_page() {
    let (page, mut met) = (page(), BTreeSet::new());
    for vector in read(&folder()).unwrap() {
        let answer = lashwork_wire::run(&vector.request);
        gather(&serde_json::from_slice(&answer).unwrap(), &mut met);
    }
    assert!(met.len() > 50, "{met:?}");
    let missing: Vec<_> = met
        .iter()
        .filter(|code| !page.contains(&format!("| `{code}` |")))
        .collect();
    assert!(missing.is_empty(), "{missing:?}");
}
