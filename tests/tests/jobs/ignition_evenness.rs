//! Evenness in a document: each spark against its place, what may be the matter, and what would tell.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot read its document stops with the reason"
)]

use super::ignition_four::{run, section};
use approx::assert_abs_diff_eq;
use lashwork::ignition::evenness::{UnevenCause, UnevenVerdict};
use lashwork::job::ignition::EvennessReport;
use lashwork::job::{Report, Standing, WorkAdvice, WorkStep};
use lashwork::tolerance::Verdict;
use serde_json::{Value, json};

const ORDER: [&str; 6] = ["1", "5", "3", "6", "2", "4"];

/// An invented six, read so.
fn document(evenness: &Value) -> Value {
    let cylinders: Vec<Value> = (1..=6).map(|n| json!({"label": n.to_string()})).collect();
    json!({
        "title": "Invented six",
        "engine": {
            "cycle": "four_stroke",
            "cylinders": cylinders,
            "firing_order": ORDER,
            "firing": "even",
            "rotation": {"sense": "clockwise", "seen_from": "free_end"},
            "numbering": "free_end",
            "ignition": "battery"
        },
        "ignition": {"valves": "settled", "evenness": evenness}
    })
}

fn evenness(report: &Report) -> &EvennessReport {
    section(report).evenness.as_ref().expect("asked for")
}

fn step(report: &Report) -> Standing {
    let steps = &section(report).steps;
    let found = steps.iter().find(|s| s.step == WorkStep::Evenness);
    found.expect("told").standing
}

/// The timing of each along the firing order, in degrees before top dead centre.
fn timing(before: [f64; 6]) -> Value {
    let read = ORDER.iter().zip(before);
    let read = read.map(|(cylinder, at)| json!({"cylinder": cylinder, "reads": {"deg_btdc": at}}));
    json!({
        "timing": {
            "readings": read.collect::<Vec<_>>(),
            "book": "10 deg BTDC",
            "uncertainty": "0.3 deg",
            "shared_uncertainty": "0.4 deg"
        },
        "tolerance": "2 deg"
    })
}

#[track_caller]
fn refused_with(place: &str, code: &str, evenness: &Value) {
    let problems = lashwork_wire::report(document(evenness).to_string().as_bytes());
    let problems = problems.expect_err("refused");
    let first = problems.first().expect("one");
    assert_eq!((first.place.as_str(), first.code.as_str()), (place, code));
    assert!(!first.hint.is_empty());
}

#[test]
fn nothing_read_asks_for_every_cylinder() {
    let report = run(&document(&json!({})));
    let found = evenness(&report);
    assert!(matches!(found.advice, WorkAdvice::Measure { .. }) && found.verdict.is_none());
    assert_eq!(step(&report), Standing::NotKnown);
    assert!(
        found
            .first
            .iter()
            .any(|sure| sure.contains("leads and distributor drive"))
    );
}

/// By hand: mean 10.1 before, so each is late by 10.1 less its reading, with u 0.3 sqrt(5/6); the mean is
/// 0.1 early with u of 0.3 / sqrt 6 and 0.4.
#[test]
fn an_even_engine_is_left() {
    let report = run(&document(&timing([10.0, 10.2, 10.1, 9.9, 10.3, 10.1])));
    let found = evenness(&report);
    for (lobe, by_hand) in found.lobes.iter().zip([0.1, -0.1, 0.0, 0.2, -0.2, 0.0]) {
        assert_abs_diff_eq!(lobe.late_deg, by_hand, epsilon = 1e-9);
        assert_abs_diff_eq!(
            lobe.uncertainty_deg,
            0.3 * (5.0_f64 / 6.0).sqrt(),
            epsilon = 1e-9
        );
        assert_eq!(lobe.judged.verdict, Verdict::InBand);
    }
    assert_eq!(found.lobes[1].cylinder, "5");
    assert_abs_diff_eq!(found.spread.expect("read").degrees(), 0.4, epsilon = 1e-9);
    let mean = found.mean.as_ref().expect("judged");
    // sqrt(0.015 + 0.16) = 0.42.
    assert_eq!(mean.found, "all together 0.1 crank deg early, u 0.4 deg");
    assert_eq!(
        found.explanations[0].explanations[0].cause,
        UnevenCause::Even
    );
    assert!(
        matches!(found.advice, WorkAdvice::Leave { .. }),
        "{found:?}"
    );
    assert_eq!(step(&report), Standing::Settled);
    let sheet = report.sheet();
    assert!(
        sheet.lines().all(|line| line.chars().count() <= 100),
        "{sheet}"
    );
    assert!(
        sheet.contains("Evenness: as even as a sound distributor"),
        "{sheet}"
    );
}

/// A run-out of 0.2 mm at a radius of 8 mm: 1.432 degrees of the cam, twice that at the crank.
#[test]
fn run_out_is_found_with_its_size() {
    let crank = (0.2_f64 / 8.0).to_degrees() * 2.0;
    let read: Vec<f64> = (0..6)
        .map(|lobe| 10.0 - crank * f64::from(lobe * 60).to_radians().cos())
        .collect();
    let mut asked = timing(<[f64; 6]>::try_from(read).expect("six"));
    asked["cam"] = json!({"radius": "8 mm"});
    let report = run(&document(&asked));
    let found = evenness(&report);
    assert_eq!(
        found.explanations[0].explanations[0].cause,
        UnevenCause::RunOut,
        "{found:?}"
    );
    assert!(
        found
            .parts
            .iter()
            .any(|text| text.contains("at most 0.200 mm off the middle")),
        "{:?}",
        found.parts
    );
    assert!(
        found.parts[0].starts_with("once round: 2.9 crank deg either way"),
        "{:?}",
        found.parts
    );
    // To draw: places every 60 degrees of the rotor, two degrees of it are four of the crank, and the wave
    // that was put in, which is latest at the first.
    for (lobe, at) in found
        .lobes
        .iter()
        .zip([0.0, 60.0, 120.0, 180.0, 240.0, 300.0])
    {
        assert_abs_diff_eq!(lobe.place.degrees(), at, epsilon = 1e-9);
    }
    assert!((found.tolerance.expect("taken").degrees() - 4.0).abs() < 1e-12);
    let wave = found.once_round.as_ref().expect("six lobes tell");
    assert_abs_diff_eq!(wave.amplitude.degrees(), crank, epsilon = 1e-6);
    // One of two numbers fitted to six readings of 0.3: 0.3 sqrt(2/6).
    assert_abs_diff_eq!(
        wave.amplitude_u.degrees(),
        0.3 / 3.0_f64.sqrt(),
        epsilon = 1e-6
    );
    let latest = wave.latest_at.expect("clear").degrees();
    assert!(!(1e-6..=360.0 - 1e-6).contains(&latest), "{latest}");
    let WorkAdvice::FindCause { text, causes } = &found.advice else {
        panic!("{found:?}");
    };
    assert!(text.contains("cures no unevenness") && causes[0].starts_with("bushings"));
    assert_eq!(step(&report), Standing::NotSettled);
    assert!(
        report
            .assumptions
            .iter()
            .any(|a| a.code == "ignition.flank-not-stated")
    );
}

/// One spark that stands out: worn or misread is not told apart, and reading it again would tell.
#[test]
fn one_that_stands_out_is_read_again_first() {
    let report = run(&document(&timing([10.0, 10.0, 3.0, 10.0, 10.0, 10.0])));
    let found = evenness(&report);
    assert_eq!(
        found.verdict,
        Some(UnevenVerdict::CannotBeToldApart),
        "{found:?}"
    );
    let causes: Vec<_> = found.explanations[0]
        .explanations
        .iter()
        .map(|e| (e.cause, e.cylinder.as_deref()))
        .collect();
    for cause in [UnevenCause::LobeWorn, UnevenCause::Misread] {
        assert!(causes.contains(&(cause, Some("3"))), "{causes:?}");
    }
    let WorkAdvice::Measure { text } = &found.advice else {
        panic!("{found:?}");
    };
    assert!(text.ends_with("read cylinder 3 once more"), "{text}");
    assert!(
        found
            .looks
            .iter()
            .any(|look| look.contains("gap on top of the lobe of cylinder 3"))
    );
    let all: f64 = found
        .explanations
        .iter()
        .map(|group| group.probability)
        .sum();
    assert!(all > 0.9 && all <= 1.0 + 1e-9, "{all}");
}

#[test]
fn dwell_lists_what_it_cannot_show() {
    let read: Vec<Value> = ORDER
        .iter()
        .map(|c| json!({"cylinder": c, "reads": "38 deg"}))
        .collect();
    let asked = json!({"dwell": {"readings": read, "shown": "before_its_spark"}});
    let report = run(&document(&asked));
    for code in [
        "ignition.symmetrical-lobes",
        "ignition.every-other-hidden",
        "ignition.evenness-uncertainty",
        "ignition.evenness-tolerance",
        "ignition.evenness-priors",
    ] {
        assert!(report.assumptions.iter().any(|a| a.code == code), "{code}");
    }
    assert!(evenness(&report).mean.is_none());
}

#[test]
fn contacts_and_leads_are_settled_first() {
    let mut asked = document(&timing([10.0, 10.0, 3.0, 10.0, 10.0, 10.0]));
    asked["ignition"]["leads"] = json!({"looks": [{"lead": {"tower_of": "1", "goes_to": "5"}}]});
    let report = run(&asked);
    let WorkAdvice::SettleFirst { text } = &evenness(&report).advice else {
        panic!("{:?}", evenness(&report).advice);
    };
    assert!(text.contains("leads and distributor drive"), "{text}");
}

#[test]
fn what_cannot_be_is_refused_in_place() {
    let mut short = timing([10.0; 6]);
    short["timing"]["readings"]
        .as_array_mut()
        .expect("a list")
        .pop();
    refused_with(
        "/ignition/evenness/timing/readings",
        "ignition.reading-missing",
        &short,
    );
    let mut twice = timing([10.0; 6]);
    twice["timing"]["readings"][5]["cylinder"] = json!("1");
    let problems = lashwork_wire::report(document(&twice).to_string().as_bytes());
    let problems = problems.expect_err("refused");
    let told: Vec<_> = problems
        .iter()
        .map(|p| (p.place.as_str(), p.code.as_str()))
        .collect();
    assert!(
        told.contains(&(
            "/ignition/evenness/timing/readings/5",
            "ignition.reading-twice"
        )),
        "{told:?}"
    );
    assert!(told.contains(&(
        "/ignition/evenness/timing/readings",
        "ignition.reading-missing"
    )));
    let mut far = timing([10.0; 6]);
    far["timing"]["readings"][2]["reads"] = json!("52 deg ATDC");
    refused_with(
        "/ignition/evenness/timing/readings/2",
        "ignition.another-place",
        &far,
    );
    let mut sure = timing([10.0; 6]);
    sure["timing"]["uncertainty"] = json!("0 deg");
    refused_with(
        "/ignition/evenness/timing/uncertainty",
        "ignition.reading-uncertainty",
        &sure,
    );
    let mut wide = timing([10.0; 6]);
    wide["tolerance"] = json!("40 deg");
    refused_with(
        "/ignition/evenness/tolerance",
        "ignition.evenness-tolerance",
        &wide,
    );
    let mut flat = timing([10.0; 6]);
    flat["cam"] = json!({"radius": "0 mm"});
    refused_with("/ignition/evenness/cam", "ignition.cam-section", &flat);
    let mut both = timing([10.0; 6]);
    both["ring"] = json!({"readings": []});
    refused_with("/ignition/evenness", "ignition.one-way-of-reading", &both);
    let mut cam = document(&timing([10.0; 6]));
    cam["ignition"]["distributor"] = json!({"cam": "crank"});
    let problems = lashwork_wire::report(cam.to_string().as_bytes()).expect_err("refused");
    let told = (problems[0].place.as_str(), problems[0].code.as_str());
    assert_eq!(told, ("/ignition/distributor", "ignition.evenness-cam"));
}
