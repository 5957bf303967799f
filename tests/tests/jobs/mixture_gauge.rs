//! The vacuum gauge in a document: causes, the altitude's share, and what other steps say.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot read its document stops with the reason"
)]

use super::ignition_four::assumed;
use super::mixture_read::{refused_with, report, section, step};
use approx::assert_abs_diff_eq;
use lashwork::job::mixture::GaugeReport;
use lashwork::job::{Report, Standing, WorkAdvice, WorkStep};
use lashwork::mixture::gauge::{GaugeCause, GaugeVerdict};
use serde_json::json;

fn found(report: &Report) -> &GaugeReport {
    section(report).gauge.as_ref().expect("asked for")
}

fn belief(report: &Report, cause: GaugeCause) -> f64 {
    let one = found(report).causes.iter().find(|one| one.cause == cause);
    one.map_or(0.0, |one| one.probability)
}

/// A drop of about 10 inHg in step with the engine points to the head gasket (published table).
#[test]
fn a_deep_regular_drop_points_to_the_head_gasket() {
    let report = report(&json!({"gauge": {"movement": "regular_drop", "drop": "10 inHg"}}));
    let found = found(&report);
    assert_eq!(found.causes[0].cause, GaugeCause::HeadGasket);
    assert!(
        found.verdict_text.contains("head gasket"),
        "{}",
        found.verdict_text
    );
    let sum: f64 = found.causes.iter().map(|one| one.probability).sum();
    assert!(sum <= 1.0 + 1e-12 && sum > 0.9);
}

#[test]
fn nothing_seen_asks_for_a_look() {
    let report = report(&json!({"valves": "settled", "timing": "settled", "gauge": {}}));
    let found = found(&report);
    assert_eq!(found.verdict, GaugeVerdict::NothingSeen);
    assert!(matches!(found.advice, WorkAdvice::Measure { .. }));
    assert_eq!(step(&report, WorkStep::Gauge), Standing::NotKnown);
}

/// 15 inHg at 1500 m are 17.7 to 19.6 inHg at sea level: 84.556 kPa there by ISO 2533, so 16.769 kPa more,
/// or 1.1983 times as much.
#[test]
fn the_altitude_takes_its_share() {
    let gauge = json!({"level": "15 inHg", "movement": "steady", "unit": "inhg"});
    let low = report(&json!({"gauge": gauge}));
    let high = report(&json!({"air": {"altitude": "1500 m"}, "gauge": gauge}));
    assert!(belief(&high, GaugeCause::Sound) > belief(&low, GaugeCause::Sound) + 0.1);
    let (from, to) = (
        found(&high).level_at_sea_from.expect("read").kilopascals(),
        found(&high).level_at_sea_to.expect("read").kilopascals(),
    );
    let shown = 15.0 * 3.386_389;
    assert_abs_diff_eq!(from, shown * 1.198_33, epsilon = 0.02);
    assert_abs_diff_eq!(to, shown + 16.769, epsilon = 0.02);
    assert!(assumed(&low, "mixture.gauge-ambient-assumed"));
    assert!(!assumed(&high, "mixture.gauge-ambient-assumed"));
}

#[test]
fn a_settled_timing_speaks_against_a_late_spark() {
    let gauge = json!({"level": "15.5 inHg", "movement": "steady"});
    let not_known = report(&json!({"gauge": gauge}));
    let settled = report(&json!({"timing": "settled", "gauge": gauge}));
    let not_settled = report(&json!({"timing": "not_settled", "gauge": gauge}));
    let late = |report| belief(report, GaugeCause::SparkLate);
    assert!(late(&settled) < 0.5 * late(&not_known));
    assert!(assumed(&settled, "mixture.gauge-timing-settled"));
    // Which way it is out is not said, so nothing follows.
    assert_abs_diff_eq!(late(&not_settled), late(&not_known), epsilon = 1e-12);
    let mut stated = gauge;
    stated["timing"] = json!("late");
    let stated = report(&json!({"timing": "settled", "gauge": stated}));
    assert!(late(&stated) > late(&not_known));
}

#[test]
fn what_cannot_be_is_refused_where_it_stands() {
    let gauge = json!({"gauge": {"level": "29 inHg"}});
    refused_with("/mixture/gauge/level", "mixture.no-idle-vacuum", &gauge);
    let gauge = json!({"gauge": {"drop": "3 inHg"}});
    refused_with(
        "/mixture/gauge/drop",
        "mixture.drop-without-movement",
        &gauge,
    );
}
