//! What comes next in a section: one step, named outright.
#![allow(
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    reason = "a test that cannot read its document stops with the reason"
)]

use super::ignition_four::{four, run};
use super::ignition_timing::book;
use super::mixture_read::{document as mixed, section};
use lashwork::job::{NextWorkReport, Standing, WorkStep};
use lashwork::mixture::gauge::GaugeVerdict;
use lashwork_tests::refusals::example;
use serde_json::{Value, json};

const EXAMPLE: &str = "four-carburettors-at-altitude.json";

fn next(document: &Value) -> Option<NextWorkReport> {
    let report = run(document);
    let next = section(&report).next.clone();
    // The sheet says the same.
    let sheet = report.sheet();
    let said = sheet.lines().find(|line| line.starts_with("Next: "));
    assert_eq!(said.is_some(), next.is_some(), "{sheet}");
    if let Some(next) = &next {
        assert!(
            said.expect("said")
                .starts_with(&format!("Next: {}", next.name))
        );
    }
    next
}

fn step(document: &Value) -> Option<WorkStep> {
    next(document).map(|next| next.step)
}

/// The mixture section of the example.
fn mixture(edit: impl FnOnce(&mut Value)) -> Value {
    let mut document = example(EXAMPLE);
    edit(&mut document["mixture"]);
    document
}

fn without(section: &mut Value, names: &[&str]) {
    let fields = section.as_object_mut().expect("an object");
    for name in names {
        fields.remove(*name);
    }
}

/// The gauge of the example does not decide, and no look at it tells more; its jet is too large, which may stay.
/// What stops the work is next.
#[test]
fn what_may_wait_does_not_keep_from_what_stops_the_work() {
    let document = example(EXAMPLE);
    let report = run(&document);
    let found = section(&report);
    let gauge = found.gauge.as_ref().expect("asked for");
    assert_eq!(gauge.verdict, GaugeVerdict::Open);
    assert!(gauge.next.is_none());
    let [jet] = &found.jets.as_ref().expect("asked for").jets[..] else {
        panic!("one");
    };
    assert!(jet.fit.is_some_and(|fit| fit < jet.fitted));
    let next = next(&document).expect("balance");
    assert_eq!(next.step, WorkStep::Balance);
    assert!(
        found.stop_work[0].text.ends_with(&next.text),
        "{}",
        next.text
    );
}

/// A jet that runs lean here holes a piston, so it goes before the throttles.
#[test]
fn a_jet_that_is_too_small_cannot_wait() {
    let document = mixture(|section| {
        section["jets"]["set_for"]["altitude"] = json!("3000 m");
        section["jets"]["fitted"][0]["number"] = json!(100);
    });
    let report = run(&document);
    let jet = &section(&report).jets.as_ref().expect("asked for").jets[0];
    assert!(
        jet.fit.is_some_and(|fit| fit > jet.fitted),
        "{}",
        jet.verdict_text
    );
    assert_eq!(step(&document), Some(WorkStep::Jets));
}

/// A further look at the gauge may find what a screw would hide, so it goes before the screws.
#[test]
fn a_look_that_is_left_goes_before_the_screws() {
    let document = mixture(|section| {
        section["gauge"] = json!({"movement": "regular_drop", "drop": "3 inHg"});
    });
    let report = run(&document);
    let gauge = section(&report).gauge.as_ref().expect("asked for");
    assert!(gauge.next.is_some(), "{}", gauge.verdict_text);
    assert_eq!(step(&document), Some(WorkStep::Gauge));
}

#[test]
fn a_fault_the_gauge_settled_on_is_next() {
    let document = mixture(|section| {
        section["gauge"] = json!({"movement": "regular_drop", "drop": "10 inHg", "with_speed": "same",
            "compression": "neighbours_low", "level": "13 inHg"});
    });
    assert_eq!(step(&document), Some(WorkStep::Gauge));
}

#[test]
fn what_comes_before_the_section_is_next_while_it_is_not_settled() {
    for (section, first) in [("valves", WorkStep::Valves), ("timing", WorkStep::Timing)] {
        let document = mixture(|asked| asked[section] = json!("not_settled"));
        assert_eq!(step(&document), Some(first));
    }
    // What was not stated is asked for with the first thing that is done, and last.
    let document = mixture(|asked| without(asked, &["valves", "gauge"]));
    assert_eq!(step(&document), Some(WorkStep::Balance));
    let next = next(&mixed(&json!({}))).expect("valves");
    assert_eq!(next.step, WorkStep::Valves);
    assert_eq!(
        next.text,
        "not stated; say whether the valve clearances are settled"
    );
    let timing = mixed(&json!({"valves": "settled"}));
    assert_eq!(step(&timing), Some(WorkStep::Timing));
}

/// Step by step to the end: what others lean on is next as soon as those before it are settled.
#[test]
fn what_was_not_begun_is_next_when_the_rest_is_settled() {
    let mut document = mixed(&json!({"valves": "settled", "timing": "settled"}));
    let whole = example(EXAMPLE);
    assert_eq!(step(&document), Some(WorkStep::Float));
    document["mixture"]["float"] = whole["mixture"]["float"].clone();
    assert_eq!(step(&document), Some(WorkStep::Balance));
    let mut balance = whole["mixture"]["balance"].clone();
    without(&mut balance, &["cylinders"]);
    for throttle in 0..4 {
        balance["vacuum"]["readings"][throttle]["shows"] =
            json!(["337 mmHg", "342 mmHg", "339 mmHg", "343 mmHg"]);
    }
    document["mixture"]["balance"] = balance;
    assert_eq!(step(&document), Some(WorkStep::Idle));
    let mut idle = whole["mixture"]["idle"].clone();
    without(&mut idle, &["rise"]);
    document["mixture"]["idle"] = idle;
    assert_eq!(step(&document), Some(WorkStep::Idle));
    document["mixture"]["idle"]["now"] = json!({"out": "2.3 turn", "speed": "1055 rpm"});
    assert_eq!(step(&document), None);
    // A gauge that decides nothing is told when nothing else is left.
    document["mixture"]["gauge"] = whole["mixture"]["gauge"].clone();
    assert_eq!(step(&document), Some(WorkStep::Gauge));
}

/// A reading with the hose on takes the timing back, also where the contacts are not settled.
#[test]
fn what_stops_the_work_is_next_in_the_ignition_too() {
    let ignition = |reading: &Value| {
        let mut timing = book();
        timing["reading"] = reading.clone();
        let section = json!({
            "valves": "settled",
            "distributor": {"rotor": "clockwise", "lobes": 4, "cam": "half_crank"},
            "contacts": {
                "gap_limits": {"from": "0.35 mm", "to": "0.45 mm"}, "gap": "0.6 mm goes, 0.65 mm does not"
            },
            "timing": timing
        });
        run(&four(&section)).ignition.expect("asked for")
    };
    let running = json!({"speed": "800 rpm", "vacuum_hose": "connected", "vacuum": "20 inHg"});
    let connected = ignition(&json!({"read": "8 deg BTDC", "running": running}));
    let next = connected.next.expect("timing");
    assert_eq!(next.step, WorkStep::Timing);
    assert_eq!(next.text, connected.stop_work[0].text);
    let standing = ignition(&json!({"read": "8 deg BTDC"}));
    let contacts = standing
        .steps
        .iter()
        .find(|one| one.step == WorkStep::Contacts);
    assert_eq!(contacts.expect("read").standing, Standing::NotSettled);
    assert_eq!(standing.next.expect("contacts").step, WorkStep::Contacts);
}
