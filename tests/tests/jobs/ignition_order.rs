//! The order of work of the ignition: what the valve clearances do to it.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot read its example stops with the reason"
)]

use super::ignition_four::{four, run};
use lashwork::job::{Report, Standing, WorkStep};
use lashwork_tests::examples;
use serde_json::{Value, json};

/// A document of an invented four with an ignition section.
fn with(ignition: &Value, fired_by: &str) -> Value {
    let mut document = four(ignition);
    document["engine"]["ignition"] = json!(fired_by);
    document
}

fn valves(report: &Report) -> (Standing, &str) {
    let section = report.ignition.as_ref().expect("asked for");
    let step = section.steps.iter().find(|s| s.step == WorkStep::Valves);
    let step = step.expect("always told");
    (step.standing, &step.text)
}

#[test]
fn what_is_stated_of_the_valves_is_taken_and_what_is_not_is_said() {
    let of = |ignition| valves(&run(&with(&ignition, "battery"))).0;
    assert_eq!(of(json!({})), Standing::NotKnown);
    let told = run(&with(&json!({}), "battery"))
        .ignition
        .expect("asked for");
    assert_eq!(told.steps[0].name, "valve clearances");
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
    let report = run(&document);
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
    let with = run(&with(&json!({}), "battery")).cautions.join(" ");
    for word in ["High voltage", "strobe", "pacemaker", "open lead"] {
        assert!(with.contains(word), "{word}");
    }
}
