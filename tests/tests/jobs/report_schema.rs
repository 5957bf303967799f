//! The schema of answers is the one of the types, every answer keeps to it, and a wrong one does not.

use lashwork_tests::{quick, vectors};
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::error::Error;

/// Every answer to the shared vectors: to each document, and to the quick checks in it.
fn answers() -> Result<Vec<(String, Value)>, Box<dyn Error>> {
    let mut answers = Vec::new();
    for vector in vectors::read(&vectors::folder())? {
        let answer = serde_json::from_slice(&lashwork_wire::run(&vector.request))?;
        answers.push((vector.id.clone(), answer));
        let Ok(document) = serde_json::from_slice(&vector.request) else {
            continue;
        };
        for check in quick::checks_of(&document) {
            let answer = lashwork_wire::quick_check(check.to_string().as_bytes());
            let name = format!("quick check of {}", vector.id);
            answers.push((name, serde_json::from_slice(&answer)?));
        }
    }
    Ok(answers)
}

fn schema() -> Result<Value, Box<dyn Error>> {
    Ok(serde_json::from_str(lashwork_wire::report_schema())?)
}

#[test]
fn the_schema_handed_out_is_the_one_of_the_types() {
    let of_the_types = lashwork_wire::schema::report();
    assert!(
        lashwork_wire::report_schema() == of_the_types,
        "run `cargo xtask schema`"
    );
}

/// The names of all properties in a schema.
fn properties(schema: &Value, names: &mut BTreeSet<String>) {
    if let Some(fields) = schema.get("properties").and_then(Value::as_object) {
        names.extend(fields.keys().cloned());
    }
    match schema {
        Value::Object(fields) => fields.values().for_each(|inner| properties(inner, names)),
        Value::Array(list) => list.iter().for_each(|inner| properties(inner, names)),
        _ => {}
    }
}

/// The fields of an answer that a schema does not name.
fn unnamed(answer: &Value, names: &BTreeSet<String>, found: &mut Vec<String>) {
    match answer {
        Value::Object(fields) => {
            for (name, inner) in fields {
                if !names.contains(name) {
                    found.push(name.clone());
                }
                unnamed(inner, names, found);
            }
        }
        Value::Array(list) => list.iter().for_each(|inner| unnamed(inner, names, found)),
        _ => {}
    }
}

#[test]
fn every_answer_keeps_to_the_schema() -> Result<(), Box<dyn Error>> {
    let schema = schema()?;
    let validator = jsonschema::validator_for(&schema)?;
    let mut names = BTreeSet::new();
    properties(&schema, &mut names);
    let (mut kinds, mut wrong) = (BTreeSet::new(), Vec::new());
    for (name, answer) in answers()? {
        // The whole schema says of a wrong answer only that it is none; so much more it need not say.
        if !validator.is_valid(&answer) {
            wrong.push(format!("{name}: {answer:.300}"));
        }
        let mut found = Vec::new();
        unnamed(&answer, &names, &mut found);
        wrong.extend(found.iter().map(|field| format!("{name}: {field}")));
        kinds.extend(answer.as_object().and_then(|a| a.keys().next()).cloned());
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(
        kinds.iter().eq(["problems", "quick", "report"]),
        "{kinds:?}"
    );
    Ok(())
}

/// An answer with another value at a place, or without what stands there.
fn doctored(answer: &Value, place: &str, value: Option<Value>) -> Option<Value> {
    let mut answer = answer.clone();
    let (object, field) = place.rsplit_once('/')?;
    let object = answer.pointer_mut(object)?.as_object_mut()?;
    match value {
        Some(value) => object.insert(field.to_owned(), value),
        None => Some(object.remove(field)?),
    };
    Some(answer)
}

#[test]
fn a_doctored_answer_is_refused() -> Result<(), Box<dyn Error>> {
    let validator = jsonschema::validator_for(&schema()?)?;
    let judged = "/report/clearance/valves/0/judged/0";
    let advice = format!("{judged}/advice");
    let known = json!({ "least": 1.0, "most": 1.0 });
    let shim = json!({
        "size": { "mm": 2.5 }, "predicted_lash": { "mm": 0.2 }, "error": { "mm": 0.0 },
        "verdict": "in_band", "others": [],
        "probabilities": { "below": known, "in_band": known, "above": known }
    });
    let changes = [
        ("/report/title".to_owned(), None),
        ("/report/clearance".to_owned(), None),
        ("/report/clearance".to_owned(), Some(json!([]))),
        ("/problems".to_owned(), Some(json!([]))),
        (format!("{judged}/verdict"), Some(json!("ok"))),
        (format!("{judged}/low"), Some(json!(0.1))),
        (format!("{judged}/low"), Some(json!({ "inch": 0.1 }))),
        (format!("{judged}/probabilities/in_band/least"), None),
        (
            format!("{judged}/probabilities/in_band/most"),
            Some(json!(null)),
        ),
        (format!("{advice}/action"), Some(json!("repair"))),
        (format!("{advice}/text"), None),
        (format!("{advice}/change"), None),
        (format!("{advice}/screw"), Some(json!(null))),
        // Screw and shim together; the answer has a screw.
        (format!("{advice}/shim"), Some(shim)),
    ];
    let answers = answers()?;
    let of_a_screw = answers
        .iter()
        .map(|(_, answer)| answer)
        .find(|answer| answer.pointer(&format!("{advice}/screw")).is_some());
    let answer = of_a_screw.ok_or("no vector advises a screw")?;
    assert!(validator.is_valid(answer));
    for (place, value) in changes {
        let changed = doctored(answer, &place, value.clone());
        let changed = changed.ok_or_else(|| format!("nothing stands at {place}"))?;
        assert!(!validator.is_valid(&changed), "{place}: {value:?}");
    }
    Ok(())
}
