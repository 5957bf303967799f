//! Magnetos from document to advice.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use super::ignition_four::{assumed, four, run, section};
use lashwork::ignition::magneto::{DropFinding, MagnetoCaution, Which};
use lashwork::job::ignition::{MagnetoReport, OneMagnetoReport};
use lashwork::job::{Report, Standing, WorkAdvice, WorkStep};
use lashwork::tolerance::Verdict;
use serde_json::{Value, json};

/// A document of an invented four with a magneto section, valves and leads settled.
fn document(magneto: &Value) -> Value {
    let mut document = four(&json!({ "valves": "settled", "magneto": magneto }));
    document["engine"]["ignition"] = json!("magneto");
    document
}

fn report(magneto: &Value) -> Report {
    run(&document(magneto))
}

fn found(report: &Report) -> &MagnetoReport {
    section(report).magneto.as_ref().expect("asked for")
}

fn refused(magneto: &Value) -> Vec<(String, String)> {
    let answer = lashwork_wire::report(document(magneto).to_string().as_bytes());
    let problems = answer.expect_err("refused");
    problems.into_iter().map(|p| (p.place, p.code)).collect()
}

fn refused_with(place: &str, code: &str, magneto: &Value) {
    assert_eq!(refused(magneto), [(place.to_owned(), code.to_owned())]);
}

/// What an invented book asks for.
fn book(magnetos: &[Value]) -> Value {
    json!({
        "magnetos": magnetos,
        "limits": {"from": "21 deg BTDC", "to": "23 deg BTDC"},
        "most_apart": "2 deg",
        "e_gap_limits": {"from": "8 deg", "to": "12 deg"},
        "gap_limits": {"from": "0.30 mm", "to": "0.45 mm"}
    })
}

/// One that is right in every way, at crank speed.
fn right() -> Value {
    json!({
        "turns_per_crank_turn": 1, "rotor": "clockwise",
        "e_gap": "10 deg", "e_gap_uncertainty": "0.3 deg",
        "look": "worn_flat", "gap": "0.35 mm goes, 0.40 mm does not",
        "sparks_at": "22 deg BTDC", "uncertainty": "0.3 deg"
    })
}

fn with(mut one: Value, fields: &[(&str, Value)]) -> Value {
    for (field, value) in fields {
        one[field] = value.clone();
    }
    one
}

fn one(magneto: &Value) -> OneMagnetoReport {
    found(&report(&book(std::slice::from_ref(magneto)))).magnetos[0].clone()
}

fn set(advice: &WorkAdvice) -> (&[String], &str, &str) {
    match advice {
        WorkAdvice::Set {
            first,
            text,
            then_reads,
        } => (first, text, then_reads),
        other => panic!("{other:?}"),
    }
}

#[test]
fn one_that_is_right_is_left() {
    let report = report(&book(&[right()]));
    let one = &found(&report).magnetos[0];
    for judged in [&one.e_gap, &one.gap, &one.spark] {
        let judged = judged.as_ref().expect("judged");
        assert_eq!(judged.verdict, Verdict::InBand, "{judged:?}");
    }
    assert!(matches!(one.advice, WorkAdvice::Leave { .. }));
    let steps = &section(&report).steps;
    let step = steps.iter().find(|s| s.step == WorkStep::Magneto);
    assert_eq!(step.map(|s| s.standing), Some(Standing::Settled));
    assert!(section(&report).stop_work.is_empty());
    // What can kill stands over everything that was found.
    let sheet = report.sheet();
    let danger = sheet.find("DANGER: a magneto sparks whenever it turns");
    assert!(
        danger < sheet.find("Magneto:") && danger.is_some(),
        "{sheet}"
    );
}

/// The place and the gap are two conditions, and both go before the timing to the engine.
#[test]
fn inside_goes_before_the_engine() {
    let late = [("sparks_at", json!("18 deg BTDC"))];
    // Opens too late with room in the gap: wider, four degrees earlier; nothing is turned at the body.
    let opens_late = one(&with(with(right(), &late), &[("e_gap", json!("14 deg"))]));
    let (first, text, then_reads) = set(&opens_late.advice);
    assert!(
        text.contains("wider") && text.contains("4.0 magneto deg earlier"),
        "{text}"
    );
    assert!(text.contains("by 4.0 crank deg"), "{text}");
    assert!(
        then_reads.contains("10.0 deg past neutral") && then_reads.contains("0.30 mm to 0.45 mm")
    );
    assert!(then_reads.contains("only then read where it sparks on the engine"));
    assert!(first[0].contains("earthed at its own terminal") && first[0].contains("live"));
    assert!(first[1].contains("one plug is out") && first[1].contains("propeller"));
    // At half speed the crank sees twice as much.
    let half = [
        ("e_gap", json!("14 deg")),
        ("turns_per_crank_turn", json!(0.5)),
    ];
    let at_half = one(&with(right(), &half));
    assert!(set(&at_half.advice).1.contains("by 8.0 crank deg"));
    let early = one(&with(right(), &[("e_gap", json!("6 deg"))]));
    let text = set(&early.advice).1;
    assert!(
        text.contains("closer") && text.contains("4.0 magneto deg later"),
        "{text}"
    );
    // Right place, wrong gap: replaced, not moved.
    let wide = one(&with(
        with(right(), &late),
        &[("gap", json!("0.55 mm goes, 0.60 mm does not"))],
    ));
    assert_eq!(
        wide.gap.as_ref().map(|g| g.verdict_text.as_str()),
        Some("too wide")
    );
    let WorkAdvice::FindCause { text, causes } = &wide.advice else {
        panic!("{:?}", wide.advice);
    };
    assert!(text.contains("do not move them") && causes[0].contains("replace"));
    // One of the two is no stand-in for the other.
    for field in ["gap", "e_gap"] {
        let mut half = with(right(), &late);
        half.as_object_mut().expect("an object").remove(field);
        let advice = one(&half).advice;
        let WorkAdvice::Measure { text } = &advice else {
            panic!("{advice:?}");
        };
        assert!(text.contains("no stand-in"), "{text}");
    }
    // A leaf between pitted contacts decides nothing.
    let pitted = one(&with(right(), &[("look", json!("pitted"))])).advice;
    assert!(
        matches!(&pitted, WorkAdvice::FindCause { text, .. } if text.contains("pitted")),
        "{pitted:?}"
    );
}

/// By hand: four crank degrees late are four at the body at crank speed, two at half speed.
#[test]
fn the_body_turns_against_the_rotor_for_earlier() {
    let read = |degrees: &str, turns: f64, rotor: Option<&str>| {
        let mut asked = with(
            right(),
            &[
                ("sparks_at", json!(degrees)),
                ("turns_per_crank_turn", json!(turns)),
            ],
        );
        match rotor {
            Some(rotor) => asked["rotor"] = json!(rotor),
            None => {
                asked.as_object_mut().expect("an object").remove("rotor");
            }
        }
        one(&asked)
    };
    let late = read("18 deg BTDC", 1.0, Some("clockwise"));
    assert_eq!(
        late.spark.as_ref().map(|s| s.verdict_text.as_str()),
        Some("too late")
    );
    let (first, text, then_reads) = set(&late.advice);
    assert!(
        text.contains("against the way its rotor turns (anticlockwise"),
        "{text}"
    );
    assert!(text.contains("by 4.0 of its own degrees") && text.contains("4.0 crank deg earlier"));
    assert_eq!(then_reads, "22.0 deg BTDC at the crank");
    assert!(first.iter().any(|one| one.contains("compression stroke")));
    assert!(
        !first
            .iter()
            .any(|one| one.contains("moving them afterwards"))
    );
    let half = read("18 deg BTDC", 0.5, Some("anticlockwise"));
    let text = set(&half.advice).1;
    assert!(
        text.contains("(clockwise") && text.contains("by 2.0 of its own degrees"),
        "{text}"
    );
    let early = read("27 deg BTDC", 1.0, Some("clockwise"));
    let text = set(&early.advice).1;
    assert!(
        text.contains("turn the body the way its rotor turns (clockwise"),
        "{text}"
    );
    assert!(text.contains("5.0 crank deg later"), "{text}");
    let unseen = read("18 deg BTDC", 1.0, None);
    let (first, text, _) = set(&unseen.advice);
    assert!(
        text.contains("against the way its rotor turns by 4.0"),
        "{text}"
    );
    assert!(
        first
            .iter()
            .any(|one| one.contains("which way its rotor turns"))
    );
    // Nothing read inside: what must be sure first says so.
    let mut alone = with(right(), &[("sparks_at", json!("18 deg BTDC"))]);
    for field in ["e_gap", "e_gap_uncertainty", "gap", "look"] {
        alone.as_object_mut().expect("an object").remove(field);
    }
    let alone = one(&alone);
    assert!(
        set(&alone.advice)
            .0
            .iter()
            .any(|one| one.contains("moving them afterwards"))
    );
}

/// The speed by the sparks: four cylinders at two sparks a turn run at crank speed.
#[test]
fn the_speed_follows_from_the_sparks() {
    let mut by_sparks = with(
        right(),
        &[
            ("sparks_at", json!("18 deg BTDC")),
            ("sparks_per_turn", json!(4)),
        ],
    );
    by_sparks
        .as_object_mut()
        .expect("an object")
        .remove("turns_per_crank_turn");
    assert!(
        set(&one(&by_sparks).advice)
            .1
            .contains("by 2.0 of its own degrees")
    );
    refused_with(
        "/ignition/magneto/magnetos/0/sparks_per_turn",
        "ignition.magneto-speeds-differ",
        &book(&[with(right(), &[("sparks_per_turn", json!(4))])]),
    );
    let agreeing = with(right(), &[("sparks_per_turn", json!(2))]);
    assert!(matches!(one(&agreeing).advice, WorkAdvice::Leave { .. }));
}

#[test]
fn an_impulse_coupling_that_kicks_stops_the_work() {
    // 14 magneto degrees at crank speed with 22 running: trips 8 before.
    let kicks = report(&book(&[with(right(), &[("impulse_lag", json!("14 deg"))])]));
    let magneto = found(&kicks);
    assert!(
        magneto
            .cautions
            .iter()
            .any(|c| c.caution == MagnetoCaution::KicksBack)
    );
    let text = magneto.magnetos[0].impulse.as_deref().expect("said");
    assert!(
        text.contains("trips at 8.0 deg BTDC, 14.0 crank deg later"),
        "{text}"
    );
    let stop = &section(&kicks).stop_work[0];
    assert!(stop.text.contains("kicks back") && stop.concerns == [WorkStep::Magneto]);
    assert_eq!(kicks.sheet().matches("the crank kicks back").count(), 1);
    // Too early by 6: once set it trips after top dead centre, and until then it kicks.
    let early = [
        ("impulse_lag", json!("24 deg")),
        ("sparks_at", json!("28 deg BTDC")),
    ];
    let early = report(&book(&[with(right(), &early)]));
    assert!(section(&early).stop_work[0].text.contains("kicks back"));
    let text = found(&early).magnetos[0].impulse.clone().expect("said");
    assert!(
        text.ends_with("set to 22.0 deg BTDC, it trips at 2.0 deg ATDC"),
        "{text}"
    );
    // At half speed the same lag is 28: it trips after top dead centre.
    let half = [
        ("impulse_lag", json!("14 deg")),
        ("turns_per_crank_turn", json!(0.5)),
    ];
    let late = report(&book(&[with(right(), &half)]));
    assert!(section(&late).stop_work.is_empty());
    let text = found(&late).magnetos[0].impulse.clone().expect("said");
    assert!(
        text.contains("trips at 6.0 deg ATDC, 28.0 crank deg later"),
        "{text}"
    );
}

fn two(left: &str, right_at: &str) -> Value {
    let one = |which: &str, at: &str| {
        with(
            right(),
            &[("which", json!(which)), ("sparks_at", json!(at))],
        )
    };
    book(&[one("left", left), one("right", right_at)])
}

#[test]
fn two_are_held_against_each_other_once_each_is_right() {
    let alike = report(&two("22 deg BTDC", "21.6 deg BTDC"));
    let apart = found(&alike).apart.as_ref().expect("both read");
    assert!(
        apart
            .judged
            .found
            .contains("the right one 0.4 crank deg later"),
        "{apart:?}"
    );
    assert!(matches!(apart.advice, WorkAdvice::Leave { .. }));
    let off = report(&two("22 deg BTDC", "18 deg BTDC"));
    let apart = found(&off).apart.as_ref().expect("both read");
    assert_eq!(apart.judged.verdict_text, "the right one is too late");
    assert!(matches!(apart.advice, WorkAdvice::SettleFirst { .. }));
    // Each within a wider book, and still 4 degrees apart: both to its middle.
    let mut wide = two("24 deg BTDC", "20 deg BTDC");
    wide["limits"] = json!({"from": "18 deg BTDC", "to": "26 deg BTDC"});
    let report = report(&wide);
    let apart = found(&report).apart.as_ref().expect("both read");
    let WorkAdvice::FindCause { causes, .. } = &apart.advice else {
        panic!("{:?}", apart.advice);
    };
    assert!(
        causes[0].contains("left one by 2.0 crank deg later"),
        "{causes:?}"
    );
    assert!(
        causes[1].contains("right one by 2.0 crank deg earlier"),
        "{causes:?}"
    );
    let steps = &section(&report).steps;
    let step = steps
        .iter()
        .find(|s| s.step == WorkStep::Magneto)
        .expect("noted");
    assert_eq!(step.standing, Standing::NotSettled);
    assert!(step.text.contains("one against the other"), "{}", step.text);
}

fn drop(left: &str, right_at: &str) -> Value {
    json!({"both": "1700 rpm", "left": left, "right": right_at, "uncertainty": "5 rpm",
        "most_drop": "150 rpm", "most_difference": "75 rpm"})
}

fn tested(mut magneto: Value, left: &str, right_at: &str) -> Report {
    magneto["drop"] = drop(left, right_at);
    report(&magneto)
}

/// No drop is the most dangerous answer of all, and stops the work whatever else was found.
#[test]
fn no_drop_stops_the_work() {
    let late = two("18 deg BTDC", "18 deg BTDC");
    for magneto in [json!({}), late] {
        let report = tested(magneto, "1700 rpm", "1640 rpm");
        let test = found(&report).drop.as_ref().expect("tested");
        let not_earthed = Which::Right;
        assert_eq!(test.findings[0], DropFinding::NoDrop { not_earthed });
        let WorkAdvice::FindCause { text, causes } = &test.advice else {
            panic!("{:?}", test.advice);
        };
        assert!(text.contains("right one switched off") && causes[0].contains("ohmmeter"));
        assert_eq!(
            found(&report).cautions[0].caution,
            MagnetoCaution::SwitchMayNotEarth
        );
        assert!(section(&report).stop_work[0].text.contains("may not earth"));
        let sheet = report.sheet();
        let stop = sheet.find("STOP WORK: the switch may not earth");
        assert!(
            stop.is_some() && stop < sheet.find("Each magneto alone:"),
            "{sheet}"
        );
    }
}

#[test]
fn the_drop_test_comes_last() {
    let alike = || two("22 deg BTDC", "22 deg BTDC");
    let good = tested(alike(), "1640 rpm", "1620 rpm");
    let test = found(&good).drop.as_ref().expect("tested");
    assert!(matches!(test.advice, WorkAdvice::Leave { .. }) && test.findings.is_empty());
    assert!(
        test.judged[0].found.contains("60 rpm slower")
            && test.judged[0].limits == "at most 150 rpm"
    );
    assert!(test.difference.found.contains("differ by 20 rpm"));
    let weak = tested(alike(), "1640 rpm", "1500 rpm");
    let test = found(&weak).drop.as_ref().expect("tested");
    assert_eq!(test.judged[1].verdict_text, "drops too much");
    let WorkAdvice::FindCause { text, .. } = &test.advice else {
        panic!("{:?}", test.advice);
    };
    assert!(text.contains("too much on the right one alone"), "{text}");
    // The same with the timing still off: that first.
    let late = tested(two("18 deg BTDC", "18 deg BTDC"), "1640 rpm", "1500 rpm");
    let test = found(&late).drop.as_ref().expect("tested");
    let WorkAdvice::SettleFirst { text } = &test.advice else {
        panic!("{:?}", test.advice);
    };
    assert!(text.contains("comes last"), "{text}");
}

/// Valves and leads that are not settled take every amount back.
#[test]
fn nothing_is_turned_on_ground_that_is_not_settled() {
    let mut document = document(&book(&[with(
        right(),
        &[("sparks_at", json!("18 deg BTDC"))],
    )]));
    document["ignition"]["valves"] = json!("not_settled");
    let report = run(&document);
    let advice = &found(&report).magnetos[0].advice;
    assert!(
        matches!(advice, WorkAdvice::SettleFirst { .. }),
        "{advice:?}"
    );
}

#[test]
fn what_is_assumed_is_listed() {
    let mut bare = right();
    for field in ["e_gap_uncertainty", "uncertainty", "look"] {
        bare.as_object_mut().expect("an object").remove(field);
    }
    let mut magneto = book(&[bare]);
    magneto["drop"] = json!({"both": "1700 rpm", "left": "1600 rpm", "right": "1600 rpm",
        "most_difference": "75 rpm"});
    let report = report(&magneto);
    for code in [
        "ignition.e-gap-uncertainty",
        "ignition.mark-uncertainty",
        "ignition.drop-uncertainty",
    ] {
        assert!(assumed(&report, code), "{code}");
    }
    let test = found(&report).drop.as_ref().expect("tested");
    // No greatest drop is printed: the drops are told, not judged. Two readings of 10 rpm.
    assert!(test.judged.is_empty() && test.drops[0].ends_with("100 rpm slower, u 14 rpm"));
}

#[test]
fn magnetos_that_cannot_be_are_refused() {
    let at = |rest: &str| format!("/ignition/magneto{rest}");
    let one = |field: &str, value: Value| book(&[with(right(), &[(field, value)])]);
    let cases = [
        (
            "/magnetos/0/e_gap",
            "ignition.e-gap",
            one("e_gap", json!("100 deg")),
        ),
        (
            "/magnetos/0/turns_per_crank_turn",
            "ignition.magneto-speed",
            one("turns_per_crank_turn", json!(0)),
        ),
        (
            "/magnetos/0/sparks_per_turn",
            "ignition.magneto-speed",
            one("sparks_per_turn", json!(0)),
        ),
        (
            "/magnetos/0/impulse_lag",
            "ignition.impulse-lag",
            one("impulse_lag", json!("0 deg")),
        ),
        (
            "/magnetos/0/sparks_at",
            "ignition.running-point",
            one("sparks_at", json!("50 deg BTDC")),
        ),
        ("", "ignition.magneto-names", book(&[right(), right()])),
    ];
    for (place, code, magneto) in cases {
        refused_with(&at(place), code, &magneto);
    }
    let mut faster = book(&[right()]);
    faster["drop"] = drop("1800 rpm", "1600 rpm");
    refused_with(&at("/drop"), "ignition.faster-on-one", &faster);
    let mut none = two("22 deg BTDC", "22 deg BTDC");
    none["most_apart"] = json!("0 deg");
    refused_with(&at("/most_apart"), "ignition.allowed-difference", &none);
    // What the book asks for is needed with what was read.
    for limits in ["limits", "e_gap_limits", "gap_limits"] {
        let mut magneto = book(&[right()]);
        magneto.as_object_mut().expect("an object").remove(limits);
        refused_with(&at(""), "ignition.magneto-not-stated", &magneto);
    }
    let mut still = right();
    still
        .as_object_mut()
        .expect("an object")
        .remove("turns_per_crank_turn");
    refused_with(
        &at("/magnetos/0"),
        "ignition.magneto-not-stated",
        &book(&[still]),
    );
    let mut crossed = book(&[right()]);
    crossed["e_gap_limits"] = json!({"from": "12 deg", "to": "8 deg"});
    refused_with(&at("/e_gap_limits"), "tolerance.crossed-limits", &crossed);
}
