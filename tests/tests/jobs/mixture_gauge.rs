//! The vacuum gauge in a document: causes, the altitude's share, and what other steps say.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot read its document stops with the reason"
)]

use super::ignition_four::{assumed, run};
use super::mixture_read::{document, refused_with, report, section, step};
use approx::assert_abs_diff_eq;
use lashwork::job::mixture::GaugeReport;
use lashwork::job::{Report, Standing, WorkAdvice, WorkStep};
use lashwork::mixture::gauge::{GaugeCause, GaugeVerdict};
use lashwork_tests::refusals::example;
use serde_json::{Value, json};

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

/// An even tremble is no fault on four cylinders (published table): with the engine's four it speaks less
/// against a sound one than on a six.
#[test]
fn the_engine_says_how_many_cylinders() {
    let seen = |cylinders: Value| {
        let mut gauge = json!({"movement": "even_ripple"});
        if !cylinders.is_null() {
            gauge["cylinders"] = cylinders;
        }
        report(&json!({"gauge": gauge}))
    };
    let (engine, four, six) = (seen(Value::Null), seen(json!(4)), seen(json!(6)));
    let sound = |report| belief(report, GaugeCause::Sound);
    assert_abs_diff_eq!(sound(&engine), sound(&four), epsilon = 1e-12);
    assert!(sound(&six) < sound(&four));
    assert!(assumed(&engine, "mixture.gauge-cylinders-of-engine"));
    assert!(!assumed(&four, "mixture.gauge-cylinders-of-engine"));
}

/// What the ignition section reads of the timing is weighed in, with no word of it in the mixture section.
#[test]
fn a_timing_read_late_is_weighed_in() {
    let gauge = json!({"level": "15.5 inHg", "movement": "steady"});
    let with = |reads: &str| {
        let mut document = document(&json!({"gauge": gauge}));
        document["ignition"] = json!({
            "valves": "settled",
            "distributor": {"rotor": "clockwise", "lobes": 4, "cam": "half_crank"},
            "timing": {"limits": {"from": "6 deg BTDC", "to": "9 deg BTDC"}, "reading": {"read": reads}}
        });
        run(&document)
    };
    let (late, not_read) = (with("1 deg BTDC"), report(&json!({"gauge": gauge})));
    let spark = |report| belief(report, GaugeCause::SparkLate);
    assert!(spark(&late) > spark(&not_read) + 0.1);
    assert!(assumed(&late, "mixture.gauge-timing-found"));
    // Half a degree under is not certain enough to be evidence.
    assert!(!assumed(
        &with("5.7 deg BTDC"),
        "mixture.gauge-timing-found"
    ));
}

/// A valve read tight beyond doubt is weighed in, with no word of it in the mixture section.
#[test]
fn a_clearance_read_too_small_is_weighed_in() {
    let with = |readings: Value| {
        let mut document = example("inline-four.json");
        document["clearance"]["readings"] = readings;
        document["mixture"] = json!({"gauge": {"movement": "regular_drop", "drop": "4 inHg"}});
        run(&document)
    };
    let tight = json!([
        {"cylinder": "1", "valve": "exhaust", "goes": ["0.05 mm"], "refuses": ["0.10 mm"]}
    ]);
    let (small, not_read) = (with(tight), with(json!([])));
    let believed = |report: &Report| belief(report, GaugeCause::ValveTight);
    assert!(believed(&small) > believed(&not_read));
    assert!(assumed(&small, "mixture.gauge-lash-found"));
    assert!(!assumed(&not_read, "mixture.gauge-lash-found"));
}

/// 15 inHg with nothing said of the air is not reckoned to sea level, and the sheet says why.
#[test]
fn without_air_nothing_is_reckoned_to_sea_level() {
    let gauge = json!({"level": "15 inHg", "movement": "steady", "unit": "inhg"});
    let report = report(&json!({"gauge": gauge}));
    let found = found(&report);
    assert!(found.level_at_sea_from.is_none() && found.level_at_sea_to.is_none());
    let text = found.level_text.as_ref().expect("read");
    assert!(
        text.contains("neither altitude nor barometer is stated"),
        "{text}"
    );
}

/// What to look at next stands on the sheet once, and nothing is looked at with a second verb.
#[test]
fn the_sheet_says_each_look_once() {
    let once = report(&json!({"gauge": {"level": "15 inHg", "movement": "steady"}}));
    let next = found(&once).next.as_ref().expect("a look");
    assert!(matches!(&found(&once).advice, WorkAdvice::Measure { text } if text == next.text));
    assert_eq!(once.sheet().matches(next.text).count(), 1);
    let settled = report(
        &json!({"gauge": {"movement": "regular_drop", "drop": "10 inHg", "with_speed": "same",
        "compression": "neighbours_low", "level": "13 inHg"}}),
    );
    let WorkAdvice::FindCause { causes, .. } = &found(&settled).advice else {
        panic!("{:?}", found(&settled).advice);
    };
    assert_eq!(causes, &["the compression of cylinders beside each other"]);
}

/// Low neighbours are a fault, however well the needle behaves: the sheet calls nothing wrong but that, and sends
/// there first.
#[test]
fn a_compression_found_low_is_not_called_nothing() {
    let mut gauge = json!({"level": "19 inHg", "movement": "steady", "with_speed": "same",
        "blip": {"opened": "2 inHg", "shut": "25 inHg"}, "compression": "neighbours_low"});
    let told = |gauge: &Value| {
        let report = report(&json!({"valves": "settled", "timing": "settled", "gauge": gauge}));
        (found(&report).clone(), step(&report, WorkStep::Gauge))
    };
    let (low, stands) = told(&gauge);
    assert_eq!(stands, Standing::NotSettled);
    assert_eq!(low.causes[0].cause, GaugeCause::Sound);
    assert!(
        low.verdict_text.contains("but what was found elsewhere"),
        "{}",
        low.verdict_text
    );
    let WorkAdvice::FindCause { causes, .. } = &low.advice else {
        panic!("{:?}", low.advice);
    };
    assert!(
        causes[0].contains("compression that was found low"),
        "{causes:?}"
    );
    gauge["compression"] = json!("even");
    let (even, stands) = told(&gauge);
    assert_eq!(stands, Standing::Settled);
    assert!(
        !even.verdict_text.contains("elsewhere"),
        "{}",
        even.verdict_text
    );
    assert!(matches!(even.advice, WorkAdvice::Leave { .. }));
}
