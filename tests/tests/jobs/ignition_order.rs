//! The order of work of the ignition: what the valve clearances do to it.
#![allow(
    clippy::expect_used,
    clippy::panic,
    reason = "a test that cannot read its example stops with the reason"
)]

use lashwork::job::Report;
use lashwork::job::ignition::{IgnitionStep, Standing};
use lashwork_tests::examples;
use serde_json::{Value, json};

/// A document of an invented four with an ignition section.
fn with(ignition: &Value, fired_by: &str) -> Value {
    json!({
        "title": "Invented four",
        "engine": {
            "cycle": "four_stroke",
            "cylinders": [{"label": "1"}, {"label": "2"}, {"label": "3"}, {"label": "4"}],
            "firing_order": ["1", "3", "4", "2"],
            "firing": "even",
            "rotation": {"sense": "clockwise", "seen_from": "free_end"},
            "numbering": "free_end",
            "ignition": fired_by
        },
        "ignition": ignition
    })
}

fn report(document: &Value) -> Report {
    lashwork_wire::report(document.to_string().as_bytes())
        .unwrap_or_else(|problems| panic!("{problems:?}"))
}

fn valves(report: &Report) -> (Standing, &str) {
    let section = report.ignition.as_ref().expect("asked for");
    let step = section
        .steps
        .iter()
        .find(|s| s.step == IgnitionStep::Valves);
    let step = step.expect("always told");
    (step.standing, &step.text)
}

#[test]
fn what_is_stated_of_the_valves_is_taken_and_what_is_not_is_said() {
    let of = |ignition| valves(&report(&with(&ignition, "battery"))).0;
    assert_eq!(of(json!({})), Standing::NotKnown);
    assert_eq!(of(json!({"valves": "settled"})), Standing::Settled);
    assert_eq!(of(json!({"valves": "not_settled"})), Standing::NotSettled);
}

#[test]
fn readings_of_the_clearance_section_go_before_what_is_stated() {
    let (_, bytes) = examples()
        .into_iter()
        .find(|(name, _)| name == "inline-four.json")
        .expect("the in-line four");
    let mut document: Value = serde_json::from_slice(&bytes).expect("JSON");
    document["ignition"] = json!({"valves": "settled"});
    let report = report(&document);
    let (standing, text) = valves(&report);
    assert_eq!(standing, Standing::NotSettled, "{text}");
    let found = report.clearance.as_ref().expect("it has one");
    let all = found.valves.len() + found.not_read.len();
    assert!(text.ends_with(&format!("of {all} found in band")), "{text}");
    // A page a step, the valves first.
    let sheet = report.sheet();
    let at = |words| sheet.find(words).expect("both pages");
    assert!(at("VALVE CLEARANCES") < at("IGNITION: "));
}

#[test]
fn a_diesel_has_no_ignition_section() {
    let document = with(&json!({}), "diesel");
    let refused = lashwork_wire::report(document.to_string().as_bytes()).expect_err("a diesel");
    let told = (refused[0].place.as_str(), refused[0].code.as_str());
    assert_eq!(told, ("/ignition", "ignition.diesel"));
}

#[test]
fn work_on_the_ignition_brings_its_own_cautions() {
    let with = report(&with(&json!({}), "battery")).cautions.join(" ");
    for word in ["High voltage", "strobe", "pacemaker", "open lead"] {
        assert!(with.contains(word), "{word}");
    }
}
