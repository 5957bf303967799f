//! A quick check says the same as a job with that one valve, and refuses at its own places.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    reason = "a test stops at the first surprise"
)]

use lashwork_tests::quick::checks_of;
use lashwork_tests::vectors::{folder, read};
use serde_json::{Value, json};

fn answer(check: &Value) -> Value {
    serde_json::from_slice(&lashwork_wire::quick_check(check.to_string().as_bytes())).unwrap()
}

fn places(check: &Value) -> Vec<(String, String)> {
    let answer = answer(check);
    let problems = answer["problems"]
        .as_array()
        .unwrap_or_else(|| panic!("{check} was not refused: {answer}"));
    let text = |problem: &Value, key: &str| problem[key].as_str().unwrap().to_owned();
    problems
        .iter()
        .map(|problem| (text(problem, "place"), text(problem, "code")))
        .collect()
}

fn check() -> Value {
    json!({
        "valve": "intake",
        "limits": { "set_to": "0.20 mm", "set": { "from": "0.15 mm", "to": "0.25 mm" } },
        "reading": { "goes": ["0.12 mm"], "refuses": ["0.15 mm"] },
    })
}

fn with(path: &str, value: Value) -> Value {
    let mut check = check();
    let (parent, key) = path.rsplit_once('/').unwrap();
    let parent = check.pointer_mut(parent).unwrap().as_object_mut().unwrap();
    parent.insert(key.to_owned(), value);
    check
}

#[test]
fn a_quick_check_judges_as_the_whole_job_does() {
    let mut compared = 0;
    for vector in read(&folder()).unwrap() {
        let Ok(document) = serde_json::from_slice::<Value>(&vector.request) else {
            continue;
        };
        let whole: Value = serde_json::from_slice(&lashwork_wire::run(&vector.request)).unwrap();
        let Some(valves) = whole
            .pointer("/report/clearance/valves")
            .and_then(Value::as_array)
        else {
            continue;
        };
        for (valve, check) in valves.iter().zip(checks_of(&document)) {
            let mut quick = answer(&check);
            let mut judged = valve["judged"][0].clone();
            judged["specification"] = "limits".into();
            // What the other valves say of it, a single valve cannot know.
            let action = &judged["advice"]["action"];
            let alone = &quick["quick"]["judged"]["advice"]["action"];
            if action != alone && (action == "settle_first" || action == "find_cause") {
                continue;
            }
            judged["specification"] = "limits".into();
            if check.get("shim").is_some() {
                // A whole job says which shim in its plan over all valves.
                judged["advice"] = Value::Null;
                quick["quick"]["judged"]["advice"] = Value::Null;
            }
            assert_eq!(quick["quick"]["judged"], judged, "{}: {check}", vector.id);
            for key in ["reading", "felt_low", "felt_high", "felt_uncertainty_mm"] {
                assert_eq!(quick["quick"][key], valve[key], "{}: {key}", vector.id);
            }
            assert_eq!(
                quick["quick"]["metal"],
                whole["report"]["clearance"]["metal"]
            );
            compared += 1;
        }
    }
    assert!(compared >= 20, "only {compared} readings compared");
}

#[test]
fn without_a_gauge_section_the_leaves_of_the_reading_stand_in() {
    let stated = with(
        "/gauge",
        json!({ "leaves": ["0.12 mm", "0.15 mm"], "stack_tolerance": "worst_case" }),
    );
    assert_eq!(answer(&check()), answer(&stated));
    let codes = |check: &Value| -> Vec<String> {
        let answer = answer(check);
        let list = answer["quick"]["assumptions"].as_array().unwrap();
        list.iter()
            .map(|a| a["code"].as_str().unwrap().to_owned())
            .collect()
    };
    let stack = with(
        "/reading",
        json!({ "goes": ["0.05 mm", "0.10 mm"], "refuses": ["0.10 mm", "0.08 mm"] }),
    );
    assert!(codes(&stack).contains(&"feeler.stack".to_owned()));
    assert!(!codes(&check()).contains(&"feeler.stack".to_owned()));
    assert!(
        codes(&check())
            .iter()
            .all(|code| !code.starts_with("valve."))
    );
}

#[test]
fn problems_stand_at_the_places_of_the_quick_check() {
    let cases = [
        (json!([]), "", "document.wrong-type"),
        (
            with("/valve", json!("inlet")),
            "/valve",
            "document.unknown-value",
        ),
        (
            with("/reeding", json!({})),
            "/reeding",
            "document.unknown-field",
        ),
        (
            with("/reading/goes", json!([0.12])),
            "/reading/goes/0",
            "quantity.no-unit",
        ),
        (
            with("/reading/goes", json!(["0 mm"])),
            "/reading",
            "feeler.leaf-not-positive",
        ),
        (
            with("/reading/goes", json!(["0.15 mm"])),
            "/reading",
            "feeler.contradiction",
        ),
        (
            with("/reading/number", json!(1)),
            "/reading/number",
            "document.unknown-field",
        ),
        (
            with("/reading/cylinder", json!("1")),
            "/reading/cylinder",
            "document.unknown-field",
        ),
        (
            with("/reading", json!({ "nothing_goes": true })),
            "",
            "document.missing-field",
        ),
        (
            with("/reading", json!(7)),
            "/reading",
            "document.wrong-type",
        ),
        (
            with("/limits/set/from", json!("0.15 ft")),
            "/limits/set/from",
            "quantity.unknown-unit",
        ),
        (
            with("/limits/set_to", json!("0.30 mm")),
            "/limits",
            "tolerance.set-to-outside-set",
        ),
        (
            with("/limits/exhaust", json!({})),
            "/limits/exhaust",
            "document.unknown-field",
        ),
        (
            with("/reference", json!("-300 C")),
            "/reference",
            "quantity.out-of-range",
        ),
        (
            with("/screw", json!({ "seat": "valve_side" })),
            "/screw",
            "adjust.thread",
        ),
        (
            with("/rocker_ratio", json!("1")),
            "/rocker_ratio",
            "document.wrong-type",
        ),
        (with("/metal", json!({})), "/metal", "thermal.mixed"),
        (
            with("/rule", json!("strict")),
            "/rule",
            "document.unknown-value",
        ),
        (
            with(
                "/gauge",
                json!({ "leaves": ["0.12 mm"], "stack_tolerance": "worst_case" }),
            ),
            "/reading/refuses/0",
            "feeler.leaf-not-in-set",
        ),
    ];
    let mut wrong = Vec::new();
    for (check, place, code) in cases {
        let got = places(&check);
        if got != [(place.to_owned(), code.to_owned())] {
            wrong.push(format!("{check}\n  expected {place} {code}, got {got:?}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn several_problems_come_together() {
    let bad = json!({ "valve": "intake", "limts": {}, "reading": {} });
    assert_eq!(places(&bad).len(), 2);
    assert_eq!(places(&json!({})).len(), 3);
    let text = lashwork_wire::quick_check(b"{");
    assert!(
        String::from_utf8(text)
            .unwrap()
            .contains("document.not-json")
    );
}
