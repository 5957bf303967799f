//! Timing and advance from document to advice.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use super::ignition_four::{four, run};
use lashwork::job::ignition::TimingReport;
use lashwork::job::{Report, Standing, WorkAdvice, WorkStep};
use lashwork::tolerance::Verdict;
use serde_json::{Value, json};

/// A document of an invented four with a timing section.
fn document(timing: &Value, contacts_settled: bool) -> Value {
    let mut ignition = json!({
        "distributor": {"rotor": "anticlockwise", "clamp": "60 mm"},
        "valves": "settled",
        "timing": timing
    });
    if contacts_settled {
        ignition["contacts"] = json!({
            "dwell": {"shows": "60 deg", "uncertainty": "0.5 deg"},
            "dwell_limits": {"from": "57 deg", "to": "63 deg"}
        });
    }
    four(&ignition)
}

fn report(timing: &Value) -> Report {
    run(&document(timing, true))
}

fn found(report: &Report) -> &TimingReport {
    let section = report.ignition.as_ref().expect("asked for");
    section.timing.as_ref().expect("asked for")
}

fn refused(timing: &Value) -> Vec<(String, String)> {
    let answer = lashwork_wire::report(document(timing, true).to_string().as_bytes());
    let problems = answer.expect_err("refused");
    problems.into_iter().map(|p| (p.place, p.code)).collect()
}

fn refused_with(place: &str, code: &str, timing: &Value) {
    assert_eq!(refused(timing), [(place.to_owned(), code.to_owned())]);
}

/// Printed at the distributor: 9 to 11 degrees at 1100, no further.
pub(crate) fn book() -> Value {
    json!({
        "limits": {"from": "8 deg BTDC", "to": "12 deg BTDC"},
        "centrifugal": {
            "distributor": [
                {"speed": "500 rpm", "least": "0 deg", "most": "0 deg"},
                {"speed": "1100 rpm", "least": "9 deg", "most": "11 deg"}
            ],
            "ends": true
        },
        "vacuum": {
            "distributor": [
                {"vacuum": "5 inHg", "least": "0 deg", "most": "0 deg"},
                {"vacuum": "20 inHg", "least": "10 deg", "most": "12 deg"}
            ],
            "ends": true
        }
    })
}

fn read(degrees: f64, running: &Value) -> Value {
    let mut read = json!({
        "read": {"deg_btdc": degrees}, "uncertainty": "0.5 deg", "lamp_delay_us": 0
    });
    if !running.is_null() {
        read["running"] = running.clone();
    }
    read
}

fn plugged(rpm: f64) -> Value {
    json!({"speed": {"rpm": rpm}, "speed_uncertainty": "20 rpm", "vacuum_hose": "plugged"})
}

fn with(key: &str, of: Value) -> Value {
    let mut timing = book();
    timing[key] = of;
    timing
}

#[test]
fn late_at_idle_is_turned_against_the_rotor() {
    let report = report(&with("reading", read(4.0, &plugged(800.0))));
    let timing = found(&report);
    let judged = timing.found.as_ref().expect("judged");
    assert_eq!(
        (judged.verdict, judged.verdict_text.as_str()),
        (Verdict::Below, "too late")
    );
    let turn = &timing.turn.as_ref().expect("how far").turn;
    // Six at the crank are three at the distributor: 1.57 mm on 60 mm.
    assert!((turn.body.degrees() - 3.0).abs() < 1e-9);
    let WorkAdvice::Set {
        first,
        text,
        then_reads,
    } = &timing.advice
    else {
        panic!("{:?}", timing.advice);
    };
    assert!(
        text.contains("against the way the rotor turns (clockwise seen from the cap) by 3.0"),
        "{text}"
    );
    assert!(text.contains("1.6 mm along the clamp") && text.contains("6.0 crank deg earlier"));
    assert!(
        then_reads.starts_with("10.0 deg BTDC at 800 rpm"),
        "{then_reads}"
    );
    assert!(
        first
            .iter()
            .any(|one| one.contains("still off and plugged"))
    );
    assert!(
        first
            .iter()
            .any(|one| one.contains("leads and distributor drive"))
    );
    let sheet = report.sheet();
    assert!(
        sheet.contains("Timing:") && sheet.contains("too late"),
        "{sheet}"
    );
    let step = report.ignition.as_ref().expect("asked").steps.iter();
    let timing = step.into_iter().find(|s| s.step == WorkStep::Timing);
    assert_eq!(timing.map(|s| s.standing), Some(Standing::NotSettled));
}

/// Set with the hose connected: with the capsule taken off it is 12 late, and the trap is named.
#[test]
fn the_hose_is_a_needed_statement() {
    let mut running = plugged(800.0);
    running
        .as_object_mut()
        .expect("an object")
        .remove("vacuum_hose");
    refused_with(
        "/ignition/timing/reading/running",
        "document.missing-field",
        &with("reading", read(10.0, &running)),
    );
    let connected = json!({
        "speed": "800 rpm", "speed_uncertainty": "20 rpm", "vacuum_hose": "connected", "vacuum": "20 inHg"
    });
    let report = report(&with("reading", read(10.0, &connected)));
    let timing = found(&report);
    assert_eq!(
        timing.found.as_ref().map(|f| f.verdict),
        Some(Verdict::Below)
    );
    assert!(
        timing
            .slips
            .iter()
            .any(|s| s.text.contains("hose connected"))
    );
    // No amount on such ground, and it is the first thing to read.
    assert!(matches!(timing.advice, WorkAdvice::SettleFirst { .. }) && timing.turn.is_none());
    let stops = &report.ignition.as_ref().expect("asked for").stop_work;
    assert!(stops[0].text.contains("plug it") && stops[0].concerns == [WorkStep::Timing]);
    assert!(
        report
            .sheet()
            .contains("STOP WORK: the ignition point was read with the vacuum")
    );
    // With the vacuum not read, nothing is turned.
    let unread = json!({"speed": "800 rpm", "vacuum_hose": "connected"});
    let report = self::report(&with("reading", read(20.0, &unread)));
    let timing = found(&report);
    assert_eq!(
        timing.found.as_ref().map(|f| f.verdict),
        Some(Verdict::CannotSay)
    );
    assert!(matches!(timing.advice, WorkAdvice::SettleFirst { .. }) && timing.turn.is_none());
    let mut both = plugged(800.0);
    both["vacuum"] = json!("20 inHg");
    refused_with(
        "/ignition/timing/reading/running/vacuum",
        "ignition.vacuum-without-hose",
        &with("reading", read(10.0, &both)),
    );
}

#[test]
fn a_reading_at_speed_is_taken_back_by_the_curve() {
    let report = report(&with("reading", read(30.0, &plugged(2600.0))));
    let timing = found(&report);
    let judged = timing.found.as_ref().expect("judged");
    assert!(
        judged.found.starts_with("10.0 deg BTDC"),
        "{}",
        judged.found
    );
    assert!(judged.found.contains("the advance by speed taken off"));
    let mut open = with("reading", read(30.0, &plugged(2600.0)));
    open["centrifugal"]["ends"] = json!(false);
    refused_with("/ignition/timing/reading", "ignition.beyond-curve", &open);
    let mut bare = with("reading", read(30.0, &plugged(2600.0)));
    bare.as_object_mut()
        .expect("an object")
        .remove("centrifugal");
    refused_with("/ignition/timing/reading", "ignition.no-curve", &bare);
}

/// Right at idle and short at speed: the body is not turned, whatever the point reads.
#[test]
fn a_worn_advance_is_never_turned_away() {
    let rows: Vec<Value> = [
        (800.0, 10.0),
        (1400.0, 10.0),
        (1800.0, 14.0),
        (2100.0, 19.0),
        (2600.0, 22.0),
    ]
    .iter()
    .map(|(rpm, degrees)| read(*degrees, &plugged(*rpm)))
    .collect();
    let mut timing = with("curve", json!(rows));
    timing["reading"] = read(22.0, &plugged(2600.0));
    let report = report(&timing);
    let timing = found(&report);
    let curve = timing.curve.as_ref().expect("a curve");
    assert!(
        curve.causes[0].text.contains("out at idle already"),
        "{:?}",
        curve.causes
    );
    assert!(matches!(curve.advice, WorkAdvice::FindCause { .. }));
    assert!(matches!(timing.advice, WorkAdvice::SettleFirst { .. }) && timing.turn.is_none());
    let verdicts: Vec<_> = curve.rows.iter().map(|row| row.judged.verdict).collect();
    assert_eq!(
        (verdicts[0], verdicts[4]),
        (Verdict::InBand, Verdict::Below)
    );
    let sheet = report.sheet();
    assert!(
        sheet.contains("Advance: does not follow the curve"),
        "{sheet}"
    );
}

/// By hand from the book: 8 to 12 before, nothing to 1000 rpm of the crank, 18 to 22 more from 2200 on. The
/// readings are of springs twice as weak, from 9 before, to an end of 20: it is reached half way up, at 1600.
#[test]
fn the_curve_is_told_in_numbers_to_draw() {
    let rows: Vec<Value> = [(800.0, 9.0), (1300.0, 19.0), (2000.0, 29.0), (2600.0, 29.0)]
        .iter()
        .map(|(rpm, degrees)| read(*degrees, &plugged(*rpm)))
        .collect();
    let report = report(&with("curve", json!(rows)));
    let curve = found(&report).curve.as_ref().expect("a curve");
    let band: Vec<[f64; 3]> = curve
        .band
        .iter()
        .map(|corner| {
            let end =
                |end: Option<lashwork::quantity::Advance>| end.expect("printed").degrees_before();
            [corner.speed.rpm(), end(corner.least), end(corner.most)]
        })
        .collect();
    let by_hand = [
        [0.0, 8.0, 12.0],
        [1000.0, 8.0, 12.0],
        [2200.0, 26.0, 34.0],
        [2600.0, 26.0, 34.0],
    ];
    assert_eq!(band, by_hand);
    let line: Vec<[f64; 2]> = curve
        .line
        .iter()
        .map(|corner| [corner.speed.rpm(), corner.sparks.degrees_before()])
        .collect();
    let by_hand = [
        [0.0, 9.0],
        [1000.0, 9.0],
        [1600.0, 29.0],
        [2200.0, 29.0],
        [2600.0, 29.0],
    ];
    assert_eq!(line.len(), by_hand.len(), "{line:?}");
    for (got, want) in line.iter().flatten().zip(by_hand.iter().flatten()) {
        assert!((got - want).abs() < 1e-6, "{line:?}");
    }
    // A quarter of the way up the book has 4.5 to 5.5 more.
    let row = &curve.rows[1];
    assert!((row.sparks.degrees_before() - 19.0).abs() < 1e-9);
    assert!((row.uncertainty_deg - 0.5).abs() < 1e-9);
    let (least, most) = (row.least.expect("printed"), row.most.expect("printed"));
    assert!(
        (least.degrees_before() - 12.5).abs() < 1e-9 && (most.degrees_before() - 17.5).abs() < 1e-9
    );
}

/// A first point that is not nothing may begin anywhere below its speed: the least jumps there.
#[test]
fn the_band_jumps_where_the_table_begins_with_something() {
    let rows = json!([read(12.0, &plugged(800.0)), read(24.0, &plugged(1800.0))]);
    let mut timing = with("curve", rows);
    timing["centrifugal"] = json!({
        "crank": [
            {"speed": "1000 rpm", "least": "4 deg", "most": "6 deg"},
            {"speed": "2000 rpm", "least": "14 deg", "most": "16 deg"}
        ],
        "ends": false
    });
    let report = report(&timing);
    let curve = found(&report).curve.as_ref().expect("a curve");
    let least: Vec<f64> = curve
        .band
        .iter()
        .filter_map(|c| Some(c.least?.degrees_before()))
        .collect();
    assert_eq!(least, [8.0, 8.0, 12.0, 22.0]);
    let speeds: Vec<f64> = curve.band.iter().map(|corner| corner.speed.rpm()).collect();
    assert!(speeds[1] < 1000.0 && speeds[1] > 999.9 && speeds[2..] == [1000.0, 2000.0]);
}

#[test]
fn a_sound_curve_from_another_point_is_turned() {
    let rows: Vec<Value> = [(800.0, 4.0), (1600.0, 14.0), (2600.0, 24.2)]
        .iter()
        .map(|(rpm, degrees)| read(*degrees, &plugged(*rpm)))
        .collect();
    let mut timing = with("curve", json!(rows));
    timing["reading"] = read(4.0, &plugged(800.0));
    let report = report(&timing);
    let timing = found(&report);
    assert!(
        matches!(timing.advice, WorkAdvice::Set { .. }),
        "{timing:?}"
    );
    let curve = timing.curve.as_ref().expect("a curve");
    assert!(
        curve.fitted[0].starts_with("static point 4.0 deg BTDC"),
        "{:?}",
        curve.fitted
    );
}

#[test]
fn contacts_out_of_band_come_first() {
    let mut document = document(&with("reading", read(4.0, &plugged(800.0))), true);
    document["ignition"]["contacts"]["dwell"]["shows"] = json!("50 deg");
    let report = lashwork_wire::report(document.to_string().as_bytes()).expect("in order");
    let timing = found(&report);
    assert!(matches!(timing.advice, WorkAdvice::SettleFirst { .. }) && timing.turn.is_none());
}

#[test]
fn bad_tables_and_points_are_refused_in_place() {
    let mut falls = book();
    falls["centrifugal"]["distributor"][1]["speed"] = json!("400 rpm");
    refused_with(
        "/ignition/timing/centrifugal",
        "ignition.curve-not-rising",
        &falls,
    );
    let mut twice = book();
    twice["centrifugal"]["crank"] = twice["centrifugal"]["distributor"].clone();
    refused_with(
        "/ignition/timing/centrifugal",
        "ignition.not-double",
        &twice,
    );
    let mut early = book();
    early["limits"]["to"] = json!("50 deg BTDC");
    refused_with("/ignition/timing/limits", "ignition.static-range", &early);
    let mut total = book();
    total["limits"]["to"] = json!("44 deg BTDC");
    refused_with("/ignition/timing/limits", "ignition.total-advance", &total);
    refused_with(
        "/ignition/timing/set_to",
        "ignition.set-to-outside",
        &with("set_to", json!("14 deg BTDC")),
    );
    let on = json!({"speed": "2600 rpm", "vacuum_hose": "connected", "vacuum": "18 inHg"});
    refused_with(
        "/ignition/timing/curve",
        "ignition.vacuum-in-curve",
        &with(
            "curve",
            json!([read(10.0, &plugged(800.0)), read(40.0, &on)]),
        ),
    );
    let mut empty = book();
    empty["limits"] = json!({});
    refused_with("/ignition/timing/limits", "tolerance.empty-band", &empty);
}

#[test]
fn what_is_not_stated_of_a_reading_is_listed() {
    let timing = with(
        "reading",
        json!({"read": "9 deg BTDC", "running": {"speed": "800 rpm", "vacuum_hose": "plugged"}}),
    );
    let report = report(&timing);
    for code in [
        "ignition.mark-uncertainty",
        "ignition.speed-uncertainty",
        "ignition.lamp-delay",
        "ignition.printed-for",
    ] {
        assert!(report.assumptions.iter().any(|a| a.code == code), "{code}");
    }
}

/// A distributor without a vacuum capsule was not set with the hose connected, late as it is; and what was
/// worked out of the curve is said no finer than a lamp shows.
#[test]
fn without_a_capsule_the_vacuum_is_not_to_blame() {
    let (_, bytes) = lashwork_tests::examples()
        .into_iter()
        .find(|(name, _)| name == "odd-fire-twin-ignition.json")
        .expect("the odd-fire twin");
    let told = |document: &[u8]| {
        let report = lashwork_wire::report(document).unwrap_or_else(|p| panic!("{p:?}"));
        let section = report.ignition.expect("it has one");
        let timing = section.timing.expect("it has one");
        serde_json::to_string(&timing).expect("JSON")
    };
    let fitted = String::from_utf8(bytes.clone())
        .expect("text")
        .replace("not_fitted", "plugged");
    for named in ["set_with_vacuum", "\"cause\":\"set_with_vacuum\""] {
        assert!(told(fitted.as_bytes()).contains(named), "{named}");
    }
    let told = told(&bytes);
    assert!(!told.contains("\"cause\":\"set_with_vacuum\""), "{told}");
    assert!(told.contains("11.6 deg BTDC to 18.4 deg BTDC"), "{told}");
}

/// Without the limits at the crank; those at the distributor as given.
fn at_distributor(limits: Value) -> Value {
    let mut timing = with("reading", read(4.0, &plugged(800.0)));
    timing.as_object_mut().expect("an object").remove("limits");
    timing["distributor_limits"] = limits;
    timing
}

/// A book's figures at the distributor are doubled exactly and said both ways.
#[test]
fn limits_at_the_distributor_are_doubled() {
    let printed = json!({"from": "4 deg BTDC", "to": "6 deg BTDC"});
    let report = report(&at_distributor(printed.clone()));
    let judged = found(&report).found.as_ref().expect("judged");
    assert_eq!(
        judged.limits,
        "4 deg BTDC to 6 deg BTDC at the distributor, 8 deg BTDC to 12 deg BTDC at the crank"
    );
    // The same verdict and turn as the book in crank degrees.
    let crank = self::report(&with("reading", read(4.0, &plugged(800.0))));
    assert_eq!(found(&report).turn, found(&crank).turn);
    // Printed both ways, and agreeing.
    let mut both = with("reading", read(4.0, &plugged(800.0)));
    both["distributor_limits"] = printed.clone();
    assert_eq!(found(&self::report(&both)).turn, found(&crank).turn);
    // The same number twice is not one point, nor are limits with other ends.
    let place = "/ignition/timing/distributor_limits";
    let code = "ignition.crank-and-distributor";
    both["distributor_limits"] = json!({"from": "8 deg BTDC", "to": "12 deg BTDC"});
    refused_with(place, code, &both);
    both["distributor_limits"] = json!({"from": "4 deg BTDC"});
    refused_with(place, code, &both);
    let crossed = json!({"from": "6 deg BTDC", "to": "4 deg BTDC"});
    refused_with(place, "tolerance.crossed-limits", &at_distributor(crossed));
    refused_with(place, "tolerance.empty-band", &at_distributor(json!({})));
    let mut none = at_distributor(printed);
    none.as_object_mut()
        .expect("an object")
        .remove("distributor_limits");
    refused_with("/ignition/timing/limits", "tolerance.empty-band", &none);
}

/// A speed at the distributor is half of that at the crank.
#[test]
fn a_speed_at_the_distributor_is_doubled() {
    let running = |speed: &Value| {
        let mut running = plugged(0.0);
        let fields = running.as_object_mut().expect("an object");
        fields.remove("speed");
        fields.extend(speed.as_object().expect("an object").clone());
        running
    };
    let at = |speed: Value| with("reading", read(30.0, &running(&speed)));
    let crank = report(&at(json!({"speed": "2600 rpm"})));
    for speed in [
        json!({"distributor_speed": "1300 rpm"}),
        json!({"distributor_speed": "1300 rpm", "speed": "2600 rpm"}),
    ] {
        assert_eq!(found(&report(&at(speed))).found, found(&crank).found);
    }
    refused_with(
        "/ignition/timing/reading/running/distributor_speed",
        "ignition.crank-and-distributor",
        &at(json!({"distributor_speed": "1300 rpm", "speed": "1300 rpm"})),
    );
    refused_with(
        "/ignition/timing/reading/running",
        "document.missing-field",
        &at(json!({})),
    );
}

/// One ladder of words for every quantity; accepted by the rule is not yet probable.
#[test]
fn words_are_no_stronger_than_their_probability() {
    let word = |degrees: f64, u: f64| {
        let mut read = read(degrees, &Value::Null);
        read["uncertainty"] = json!({"deg": u});
        let report = report(&with("reading", read));
        let judged = found(&report).found.clone().expect("judged");
        (judged.verdict_text, judged.probabilities.in_band.least)
    };
    assert_eq!(word(10.0, 0.5).0, "in band");
    // One and three u from the limits: 84 %.
    assert_eq!(word(9.0, 1.0).0, "probably in band");
    // Early with 2.6 %, which the rule accepts, late with 48.0 %: in band with the rest (normal tables).
    let (text, share) = word(8.1, 2.0);
    assert!((share - 0.494_350_746).abs() < 1e-8, "{share}");
    assert_eq!(text, "not shown to be out of band");
    assert_eq!(word(7.0, 1.5).0, "probably too late");
    assert_eq!(word(4.0, 1.0).0, "too late");
}

/// Dwell first, then the advance by speed. Published: a 1968 shop manual, pp. 435-436; dwell before timing also
/// in another maker's text.
#[test]
fn dwell_is_settled_before_timing_and_advance() {
    let rows = [(800.0, 10.0), (1600.0, 20.0), (2600.0, 30.2)];
    let rows = rows.map(|(rpm, degrees)| read(degrees, &plugged(rpm)));
    let mut timing = with("curve", json!(rows));
    timing["reading"] = read(10.0, &plugged(800.0));
    let mut document = document(&timing, true);
    document["ignition"]["contacts"]["dwell"]["shows"] = json!("50 deg");
    let report = run(&document);
    let section = report.ignition.as_ref().expect("asked for");
    let concerns = [WorkStep::Timing, WorkStep::Advance];
    let stop = &section.stop_work[0];
    assert!(stop.text.contains("settle the contacts first"), "{stop:?}");
    assert_eq!(stop.concerns, concerns);
    let steps: Vec<WorkStep> = section.steps.iter().map(|step| step.step).collect();
    assert!(steps.ends_with(&[WorkStep::Contacts, concerns[0], concerns[1]]));
}

/// Degrees of the other shaft: a reading of twice or half the book's figure is named, and nothing is turned.
#[test]
fn degrees_of_the_other_shaft_are_recognised() {
    for (shows, words) in [
        (20.0, "twice the book's figure"),
        (5.0, "half the book's figure"),
    ] {
        let timing = json!({
            "limits": {"from": "9 deg BTDC", "to": "11 deg BTDC"},
            "reading": read(shows, &Value::Null)
        });
        let report = report(&timing);
        let timing = found(&report);
        let named = timing.slips.iter().any(|slip| slip.text.contains(words));
        assert!(named, "{:?}", timing.slips);
        assert!(matches!(timing.advice, WorkAdvice::Measure { .. }) && timing.turn.is_none());
    }
}

/// Refused where they stand: an advance that falls as the speed grows, and a strobe reading where the weights act
/// already with no table to take them off.
#[test]
fn a_falling_advance_and_a_running_reading_without_a_table_are_refused() {
    let mut falls = book();
    falls["centrifugal"]["distributor"][0]["most"] = json!("12 deg");
    refused_with(
        "/ignition/timing/centrifugal",
        "ignition.curve-falls",
        &falls,
    );
    let mut bare = with("reading", read(20.0, &plugged(2600.0)));
    bare.as_object_mut()
        .expect("an object")
        .remove("centrifugal");
    refused_with("/ignition/timing/reading", "ignition.no-curve", &bare);
    let mut running = plugged(2600.0);
    running["speed"] = json!("400 rpm");
    // Below the first point nothing acts: the reading is static as it stands.
    let report = report(&with("reading", read(10.0, &running)));
    let judged = found(&report).found.as_ref().expect("judged");
    assert!(judged.found.contains("10.0 deg BTDC"), "{judged:?}");
}
