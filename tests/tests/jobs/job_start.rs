//! What the fewest stops make of a cylinder to start with, on the invented V-eight with marks.
#![allow(
    clippy::expect_used,
    clippy::panic,
    reason = "a test that cannot read its example stops with the reason"
)]

use lashwork_tests::examples;
use serde_json::{Value, json};

/// What is assumed of the start, with one mark at 50 degrees or the marks of the example.
fn assumed(plan: Option<Value>, start: &str) -> Vec<String> {
    let found = examples()
        .into_iter()
        .find(|(name, _)| name == "v-eight-marks.json");
    let (_, bytes) = found.expect("the V-eight");
    let mut document: Value = serde_json::from_slice(&bytes).expect("JSON");
    let section = document.get_mut("clearance").and_then(Value::as_object_mut);
    let fields = section.expect("an object");
    fields.insert("start".into(), json!(start));
    if let Some(plan) = plan {
        fields.insert("plan".into(), plan);
    }
    let report = lashwork_wire::report(document.to_string().as_bytes())
        .unwrap_or_else(|problems| panic!("{problems:?}"));
    let starts = report.assumptions.into_iter();
    let starts = starts.filter(|a| a.code == "valve.start");
    starts.map(|a| a.text).collect()
}

#[test]
fn a_start_at_which_the_crank_cannot_be_stopped_is_where_turning_counts_from() {
    let mark = json!({"places": "marks", "marks": [{"label": "A", "at": {"deg": 50}}]});
    let [text]: [String; 1] = assumed(Some(mark), "P3").try_into().expect("one");
    assert!(
        text.contains("firing TDC of the cylinder to start with, P3"),
        "{text}"
    );
}

#[test]
fn a_start_beside_a_stated_position_is_said_not_to_lead_the_fewest_stops() {
    let [text]: [String; 1] = assumed(None, "P3").try_into().expect("one");
    assert!(text.contains("do not start with cylinder P3"), "{text}");
}

#[test]
fn a_start_that_the_fewest_stops_begin_with_is_no_assumption() {
    assert_eq!(
        assumed(Some(json!({"places": "tdc"})), "P3"),
        Vec::<String>::new()
    );
}
