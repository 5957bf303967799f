//! Laws of the JSON interface on documents nobody meant.
#![allow(
    clippy::panic,
    reason = "a document that does not come apart as written is a broken test"
)]

use lashwork_tests::examples;
use proptest::prelude::*;
use serde_json::{Map, Value, json};

/// Names that a document uses, so that generated ones get past the first check.
const NAMES: [&str; 24] = [
    "lashwork",
    "title",
    "engine",
    "valves",
    "specifications",
    "gauge",
    "metal",
    "readings",
    "rule",
    "start",
    "cycle",
    "cylinders",
    "label",
    "firing_order",
    "leaves",
    "tolerance",
    "goes",
    "refuses",
    "drags",
    "mm",
    "in",
    "deg",
    "from",
    "to",
];

/// Texts that a document uses, and some at its edges.
const TEXTS: [&str; 20] = [
    "",
    "1",
    "2",
    "0.15 mm",
    "-0.15 mm",
    "0,15 mm",
    "0.006 in",
    "1e300 mm",
    "NaN mm",
    "20 C",
    "-300 C",
    "1 K",
    "180 deg",
    "even",
    "four_stroke",
    "two_stroke",
    "intake",
    "cold",
    "simple",
    "\u{0}\u{fffd}\u{2212}1 mm",
];

fn scalar() -> impl Strategy<Value = Value> {
    prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<i64>().prop_map(Value::from),
        any::<u64>().prop_map(Value::from),
        any::<f64>().prop_map(Value::from),
        (0_u64..4).prop_map(Value::from),
        prop::sample::select(TEXTS.to_vec()).prop_map(Value::from),
        any::<String>().prop_map(Value::from),
    ]
}

fn shaped() -> impl Strategy<Value = Value> {
    scalar().prop_recursive(5, 64, 8, |inner| {
        let name = prop_oneof![
            4 => prop::sample::select(NAMES.to_vec()).prop_map(str::to_owned),
            1 => any::<String>(),
        ];
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..8).prop_map(Value::Array),
            prop::collection::vec((name, inner), 0..8)
                .prop_map(|pairs| Value::Object(pairs.into_iter().collect::<Map<_, _>>())),
        ]
    })
}

/// The inline-four example.
fn example() -> Value {
    let found = examples()
        .into_iter()
        .find(|(name, _)| name == "inline-four.json")
        .and_then(|(_, bytes)| serde_json::from_slice(&bytes).ok());
    found.unwrap_or_else(|| panic!("no inline-four.json"))
}

/// Pointers to all nodes below the root.
fn nodes(value: &Value, at: &str, found: &mut Vec<String>) {
    let children: Vec<(String, &Value)> = match value {
        Value::Object(map) => map.iter().map(|(k, v)| (k.clone(), v)).collect(),
        Value::Array(items) => items
            .iter()
            .enumerate()
            .map(|(i, v)| (i.to_string(), v))
            .collect(),
        _ => Vec::new(),
    };
    for (key, child) in children {
        let here = format!("{at}/{key}");
        nodes(child, &here, found);
        found.push(here);
    }
}

#[derive(Clone, Debug)]
enum Mutation {
    Drop,
    Double,
    Replace(Value),
    Rename(String),
}

fn mutation() -> impl Strategy<Value = Mutation> {
    prop_oneof![
        Just(Mutation::Drop),
        Just(Mutation::Double),
        shaped().prop_map(Mutation::Replace),
        scalar().prop_map(Mutation::Replace),
        prop::sample::select(NAMES.to_vec()).prop_map(|n| Mutation::Rename(n.to_owned())),
        any::<String>().prop_map(Mutation::Rename),
    ]
}

fn mutate(document: &mut Value, pointer: &str, mutation: Mutation) {
    let (parent, key) = pointer.rsplit_once('/').unwrap_or_default();
    match document.pointer_mut(parent) {
        Some(Value::Object(map)) => {
            let old = map.remove(key).unwrap_or_default();
            match mutation {
                Mutation::Drop => None,
                Mutation::Double => {
                    map.insert(format!("{key}{key}"), old.clone());
                    map.insert(key.to_owned(), old)
                }
                Mutation::Replace(new) => map.insert(key.to_owned(), new),
                Mutation::Rename(name) => map.insert(name, old),
            };
        }
        Some(Value::Array(items)) => {
            let index = key.parse().unwrap_or(0).min(items.len() - 1);
            let old = items.remove(index);
            match mutation {
                Mutation::Drop => {}
                Mutation::Double => {
                    items.insert(index, old.clone());
                    items.insert(index, old);
                }
                Mutation::Replace(new) => items.insert(index, new),
                Mutation::Rename(name) => items.insert(index, json!({ name: old })),
            }
        }
        // An earlier mutation took the parent away.
        _ => {}
    }
}

/// Asks, and checks what holds for any answer.
fn answer(bytes: &[u8]) -> Result<Value, TestCaseError> {
    let answer = lashwork_wire::run(bytes);
    prop_assert_eq!(&answer, &lashwork_wire::run(bytes), "answers differ");
    let value: Value = serde_json::from_slice(&answer)
        .map_err(|why| TestCaseError::fail(format!("the answer is not JSON: {why}")))?;
    let map = value.as_object().cloned().unwrap_or_default();
    prop_assert_eq!(map.len(), 1, "{}", value);
    let sheet = lashwork_wire::job_sheet(bytes);
    if let Some(problems) = map.get("problems").and_then(Value::as_array) {
        prop_assert!(!problems.is_empty(), "refused without a problem");
        for problem in problems {
            for key in ["code", "message", "hint"] {
                let text = problem.get(key).and_then(Value::as_str).unwrap_or_default();
                prop_assert!(!text.trim().is_empty(), "{} without {}", problem, key);
            }
            let place = problem.get("place").and_then(Value::as_str);
            let is_pointer = place.is_some_and(|p| p.is_empty() || p.starts_with('/'));
            prop_assert!(is_pointer, "{}", problem);
        }
        prop_assert!(sheet.is_err());
    } else {
        prop_assert!(map.get("report").is_some_and(Value::is_object));
        prop_assert!(sheet.is_ok_and(|text| !text.is_empty()));
    }
    Ok(value)
}

proptest! {
    #[test]
    fn any_bytes_are_answered(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        answer(&bytes)?;
    }

    #[test]
    fn any_json_is_answered(value in shaped()) {
        answer(value.to_string().as_bytes())?;
    }

    #[test]
    fn any_section_is_answered(name in prop::sample::select(NAMES.to_vec()), value in shaped()) {
        let mut document = example();
        if let Some(map) = document.as_object_mut() {
            map.insert(name.to_owned(), value);
        }
        answer(document.to_string().as_bytes())?;
    }

    #[test]
    fn a_damaged_example_is_answered(
        damage in prop::collection::vec((any::<prop::sample::Index>(), mutation()), 1..4),
    ) {
        let mut document = example();
        for (index, mutation) in damage {
            let mut found = Vec::new();
            nodes(&document, "", &mut found);
            if !found.is_empty() {
                let pointer = index.get(&found).clone();
                mutate(&mut document, &pointer, mutation);
            }
        }
        answer(document.to_string().as_bytes())?;
    }

    #[test]
    fn a_cut_example_is_refused(cut in any::<prop::sample::Index>()) {
        let text = example().to_string();
        let bytes = text.as_bytes();
        let cut = bytes.get(..cut.index(bytes.len())).unwrap_or_default();
        let answer = answer(cut)?;
        prop_assert!(answer.get("problems").is_some());
    }
}

#[test]
fn every_example_gives_a_report_and_a_sheet() {
    for (name, bytes) in examples() {
        let answer: Value = serde_json::from_slice(&lashwork_wire::run(&bytes)).unwrap_or_default();
        assert!(answer.get("report").is_some(), "{name}: {answer}");
        let page = lashwork_wire::job_sheet(&bytes).unwrap();
        let has = |section: &str| {
            let found = answer.get("report").and_then(|report| report.get(section));
            found.is_some_and(|found| !found.is_null())
        };
        let titles = [
            ("clearance", "VALVE CLEARANCES: "),
            ("condition", "CONDITION: "),
            ("ignition", "IGNITION: "),
        ];
        let first = titles.iter().find(|(section, _)| has(section));
        let first = first.map_or("MIXTURE: ", |(_, title)| title);
        // What comes next in a service of several steps stands before the first page.
        if has("service") {
            let (top, rest) = page.split_once("\n\n").unwrap_or_default();
            assert!(top.starts_with("NEXT: "), "{name}");
            assert!(rest.starts_with(first), "{name}");
        } else {
            assert!(page.starts_with(first), "{name}");
        }
        let wide = page.lines().find(|line| line.chars().count() > 100);
        assert_eq!(wide, None, "{name}");
        let full = lashwork_wire::full_sheet(&bytes).unwrap();
        assert!(full.starts_with(&page), "{name}");
        assert!(full.contains("\nJOB SHEET: "), "{name}");
    }
}

#[test]
fn the_order_of_fields_does_not_matter() {
    let value = example();
    let fields: Vec<String> = value
        .as_object()
        .into_iter()
        .flatten()
        .rev()
        .map(|(key, field)| format!("{}:{field}", json!(key)))
        .collect();
    let turned = format!("{{{}}}", fields.join(","));
    let straight = lashwork_wire::run(value.to_string().as_bytes());
    assert_eq!(straight, lashwork_wire::run(turned.as_bytes()));
}
