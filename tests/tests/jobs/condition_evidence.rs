//! What compression says to the steps after it: vacuum gauge and balance take it as evidence.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot read its document stops with the reason"
)]

use super::condition_read::{document, dry};
use super::ignition_four::{assumed, run};
use lashwork::job::mixture::{BalanceReport, GaugeReport};
use lashwork::job::{Report, Standing, WorkAdvice, WorkStep};
use lashwork::mixture::balance::CylinderCause;
use lashwork::mixture::gauge::GaugeCause;
use serde_json::{Value, json};

const WELL: [f64; 4] = [150.0, 149.0, 151.0, 150.0];
const NEIGHBOURS: [f64; 4] = [150.0, 95.0, 97.0, 150.0];
const THIRD: [f64; 4] = [150.0, 149.0, 90.0, 150.0];

/// A four whose compression was read, and this mixture section.
fn read(psi: &[f64; 4], mixture: &Value) -> Report {
    let readings = dry(psi);
    let mut document = document(&json!({
        "valves": "settled", "compression": {"readings": readings, "unit": "psi"}
    }));
    document["mixture"] = mixture.clone();
    document["mixture"]["timing"] = json!("settled");
    run(&document)
}

fn gauge(report: &Report) -> &GaugeReport {
    let mixture = report.mixture.as_ref().expect("asked for");
    mixture.gauge.as_ref().expect("asked for")
}

fn balance(report: &Report) -> &BalanceReport {
    let mixture = report.mixture.as_ref().expect("asked for");
    mixture.balance.as_ref().expect("asked for")
}

fn standing(report: &Report, step: WorkStep) -> Standing {
    let mixture = report.mixture.as_ref().expect("asked for");
    let found = mixture.steps.iter().find(|one| one.step == step);
    found.expect("told").standing
}

fn belief(report: &Report, cause: GaugeCause) -> f64 {
    let found = gauge(report).causes.iter().find(|one| one.cause == cause);
    found.map_or(0.0, |one| one.probability)
}

/// A drop in step with the engine: two low neighbours make it the head gasket, even cylinders speak against it. What
/// is stated at the gauge goes before what the readings say.
#[test]
fn the_vacuum_gauge_hears_of_the_compression() {
    let asked = json!({"gauge": {"movement": "regular_drop", "drop": "6 inHg"}});
    let gasket = |psi: &[f64; 4]| belief(&read(psi, &asked), GaugeCause::HeadGasket);
    let mut alone = document(&json!({"valves": "settled"}));
    alone["mixture"] = asked.clone();
    let alone = belief(&run(&alone), GaugeCause::HeadGasket);
    assert!(gasket(&NEIGHBOURS) > alone && gasket(&WELL) < alone);
    assert!(gasket(&THIRD) < gasket(&NEIGHBOURS));
    let low = read(&NEIGHBOURS, &asked);
    assert!(assumed(&low, "mixture.gauge-compression-found"));
    let stated =
        json!({"gauge": {"movement": "regular_drop", "drop": "6 inHg", "compression": "even"}});
    assert!(!assumed(
        &read(&NEIGHBOURS, &stated),
        "mixture.gauge-compression-found"
    ));
}

/// A steady needle on an engine with a low cylinder is not called nothing.
#[test]
fn a_steady_needle_hides_no_low_cylinder() {
    let steady = json!({"gauge": {"level": "19 inHg", "movement": "steady", "with_speed": "same",
        "blip": {"opened": "2 inHg", "shut": "25 inHg"}}});
    assert_eq!(
        standing(&read(&THIRD, &steady), WorkStep::Gauge),
        Standing::NotSettled
    );
    assert_eq!(
        standing(&read(&WELL, &steady), WorkStep::Gauge),
        Standing::Settled
    );
}

/// Readings that the cranking moves, that are doubtful or not complete say nothing to others.
#[test]
fn doubtful_compression_is_no_evidence() {
    let asked = json!({"gauge": {"movement": "regular_drop", "drop": "6 inHg"}});
    let is_heard = |readings: Value, cranked: Value| {
        let mut document = document(&json!({
            "valves": "settled", "compression": {"readings": readings, "cranked": cranked}
        }));
        document["mixture"] = asked.clone();
        assumed(&run(&document), "mixture.gauge-compression-found")
    };
    assert!(is_heard(dry(&WELL), json!({"throttle_open": true})));
    assert!(!is_heard(dry(&WELL), json!({"throttle_open": false})));
    assert!(!is_heard(dry(&NEIGHBOURS), json!({"throttle_open": false})));
    assert!(!is_heard(dry(&WELL[..3]), json!({})));
    assert!(!is_heard(dry(&[150.0, 149.0, 132.0, 150.0]), json!({})));
    // A rule that is not met, whatever the cylinders show beside each other.
    let ruled = |least: &str| {
        let mut document = document(&json!({"valves": "settled", "compression": {
            "readings": dry(&WELL), "rules": [{"least": least}]
        }}));
        document["mixture"] = asked.clone();
        assumed(&run(&document), "mixture.gauge-compression-found")
    };
    assert!(ruled("120 psi") && !ruled("170 psi"));
    // Valves that were set after it take it back.
    let mut document = document(&json!({"compression": {"readings": dry(&NEIGHBOURS)}}));
    document["mixture"] = asked.clone();
    let log = |first: &str, then: &str| json!([{"step": first, "did": "read"}, {"step": then, "did": "set"}]);
    document["log"] = log("compression", "valves");
    assert!(!assumed(&run(&document), "mixture.gauge-compression-found"));
    document["log"] = log("compression", "contacts");
    assert!(assumed(&run(&document), "mixture.gauge-compression-found"));
}

/// All low alike: the gauge hears of all, and no single cylinder is named.
#[test]
fn all_low_is_no_single_cylinder() {
    let mut document = document(&json!({
        "valves": "settled", "air": {"altitude": "0 m"},
        "compression_ratio": 9, "intake_closes_abdc": "50 deg",
        "compression": {"readings": dry(&[95.0, 94.0, 96.0, 95.0])}
    }));
    document["mixture"] = json!({"gauge": {"level": "15 inHg", "movement": "steady"}});
    let report = run(&document);
    let said = report
        .assumptions
        .iter()
        .find(|one| one.code == "mixture.gauge-compression-found");
    assert!(said.expect("heard").text.contains("low on all cylinders"));
}

/// Four throttles of the same opening, the third with less vacuum.
fn throttles() -> Value {
    let mut balance = super::mixture_balance::four([62.0, 62.0, 55.0, 62.0]);
    balance["cylinders"] = json!({"set_alike": 0.01});
    balance
}

/// A throttle for each cylinder, and the third cylinder low: no screw is turned, and the cylinder is named. With even
/// compression it is no cause of what differs.
#[test]
fn a_low_cylinder_is_no_matter_of_a_throttle() {
    let low = read(&THIRD, &json!({"balance": throttles()}));
    let WorkAdvice::SettleFirst { text } = &balance(&low).advice else {
        panic!("{:?}", balance(&low).advice);
    };
    assert!(text.contains("low on cylinder 3"), "{text}");
    assert!(balance(&low).turns.is_empty());
    assert_eq!(
        balance(&low).cylinders[2].causes[0],
        CylinderCause::Compression
    );
    assert!(assumed(&low, "mixture.balance-compression-found"));
    assert_eq!(standing(&low, WorkStep::Balance), Standing::NotSettled);
    let even = read(&WELL, &json!({"balance": throttles()}));
    let third = &balance(&even).cylinders[2];
    assert!(!third.causes.contains(&CylinderCause::Compression));
    // Two throttles on a four are not its cylinders 1 and 2.
    let mut two = throttles();
    two["throttles"] = json!(["1", "2"]);
    two["joints"] = json!([{"between": ["1", "2"], "by": "screw"}]);
    two["vacuum"]["readings"]
        .as_array_mut()
        .expect("a list")
        .truncate(2);
    let two = read(&THIRD, &json!({"balance": two}));
    assert!(!assumed(&two, "mixture.balance-compression-found"));
    assert!(matches!(
        balance(&two).advice,
        WorkAdvice::SettleFirst { .. }
    ));
}
