//! The head's bolts in a document: order, wrench, force, and that tightening them takes the clearances back.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot read its document stops with the reason"
)]

use super::condition_read::{compression, dry, head, refused_with, report, section, step};
use super::ignition_four::run;
use approx::assert_abs_diff_eq;
use lashwork::clearance::Advice;
use lashwork::job::clearance::StopWorkCode;
use lashwork::job::{Standing, WorkAdvice, WorkStep};
use lashwork_tests::refusals::example;
use serde_json::{Value, json};

/// Two rows of three.
fn bolts() -> Value {
    let one = |(i, name): (usize, &str)| json!({"name": name, "along": format!("{} mm", 90 * (i % 3)), "across": format!("{} mm", 80 * (i / 3))});
    ["a", "b", "c", "A", "B", "C"]
        .into_iter()
        .enumerate()
        .map(one)
        .collect()
}

/// From the middle outward, ends and sides in turn (common practice, no source); a wrench of 16 in with an adapter
/// of 2 in: 44.44 for 50 (the formula in US Army TM 9-254, figure 46).
#[test]
fn bolts_that_are_due_are_told_in_order_and_with_what_is_set() {
    let report = report(&json!({"head": {
        "bolts_are": "due", "bolts": bolts(), "torque": "50 Nm",
        "adapter": {"wrench_length": "16 in", "length": "2 in"}
    }}));
    let found = head(&report);
    assert_eq!(found.order, ["b", "B", "a", "C", "A", "c"]);
    assert_abs_diff_eq!(
        found.set.expect("stated").newton_metres(),
        44.44,
        epsilon = 5e-3
    );
    let WorkAdvice::Set { first, text, .. } = &found.advice else {
        panic!("{:?}", found.advice);
    };
    assert!(
        first.iter().any(|one| one.contains("stretch bolts")),
        "{first:?}"
    );
    assert!(text.contains("44.4 Nm on the wrench"), "{text}");
    // What must be sure stands before the amount.
    let sheet = report.sheet();
    let words: Vec<&str> = sheet.split_whitespace().collect();
    let sheet = words.join(" ");
    let sure = sheet.find("stretch bolts: those").expect("said");
    assert!(
        sure < sheet
            .find("44.4 Nm on the wrench, in the steps")
            .expect("said")
    );
    assert_eq!(step(&report, WorkStep::Head), Standing::NotSettled);
    assert_eq!(step(&report, WorkStep::Valves), Standing::NotSettled);
    assert_eq!(
        section(&report).next.as_ref().expect("open").step,
        WorkStep::Head
    );
    assert!(
        report
            .cautions
            .iter()
            .any(|one| one.starts_with("Head bolts by the maker's manual"))
    );
}

/// Tightened after the valves were measured: no clearance stands, on no page, whatever was read or stated.
#[test]
fn tightening_since_takes_the_clearances_back() {
    let mut with_clearances = example("inline-four.json");
    let before = run(&with_clearances);
    let is_set = |advice: &Advice| matches!(advice, Advice::Reset(_));
    let valves = |report: &lashwork::job::Report| {
        let valves = report.clearance.as_ref().expect("asked for").valves.clone();
        let judged = valves.into_iter().flat_map(|valve| valve.judged);
        judged.map(|judged| judged.advice).collect::<Vec<Advice>>()
    };
    assert!(valves(&before).iter().any(is_set));
    for (stand, said) in [
        ("tightened_since", "were tightened since"),
        ("due", "still to be tightened"),
    ] {
        with_clearances["condition"] = json!({"head": {"bolts_are": stand}});
        let after = run(&with_clearances);
        let found = after.clearance.as_ref().expect("asked for");
        assert_eq!(found.stop_work[0].code, StopWorkCode::HeadBolts);
        assert!(found.stop_work[0].text.contains(said));
        assert!(!valves(&after).iter().any(is_set), "{stand}");
        assert_eq!(step(&after, WorkStep::Valves), Standing::NotSettled);
        let sheet = after.sheet();
        assert!(sheet.contains("STOP WORK: the head bolts"), "{sheet}");
        assert!(!sheet.contains("reset to"), "{sheet}");
    }
    // Stated as settled, and stale all the same; compression then holds for now only.
    let stated = report(&json!({
        "valves": "settled", "head": {"bolts_are": "tightened_since"},
        "compression": {"readings": dry(&[150.0, 149.0, 151.0, 150.0])}
    }));
    assert_eq!(step(&stated, WorkStep::Valves), Standing::NotSettled);
    assert_eq!(step(&stated, WorkStep::Head), Standing::Settled);
    let text = compression(&stated).provisional.clone().expect("said");
    assert!(text.contains("tightened since"), "{text}");
    assert_eq!(
        section(&stated).next.as_ref().expect("open").step,
        WorkStep::Valves
    );
    let settled = report(&json!({
        "valves": "settled", "head": {"bolts_are": "settled"},
        "compression": {"readings": dry(&[150.0, 149.0, 151.0, 150.0])}
    }));
    assert!(compression(&settled).provisional.is_none());
    assert!(section(&settled).next.is_none());
}

/// CALC: 0.04 mm down with pushrods and rockers of 1.45: every clearance 0.058 mm less. 68 Nm on M10 with a nut
/// factor of 0.17: 40 kN, 30 to 50 with 25 % (NASA's rule for oiled threads).
#[test]
fn what_it_does_to_the_lash_and_along_the_bolt_is_told() {
    let asked = |settling: Value| {
        report(&json!({"head": {
            "bolts_are": "due", "torque": "68 Nm", "also_printed": "50 lbf ft",
            "bolt": {"diameter": "10 mm", "nut_factor": 0.17, "tightening": "oiled_torque"},
            "settling": settling
        }}))
    };
    let pushrods = asked(json!({"down": "0.04 mm", "pushrod_rocker_ratio": 1.45}));
    let text = head(&pushrods).lash_text.clone().expect("asked for");
    assert!(
        text.contains("closes every clearance by 0.058 mm"),
        "{text}"
    );
    let texts = head(&pushrods).torque_texts.join("; ");
    assert!(
        texts.contains("30.0 kN to 50.0 kN along each bolt, 40.0 kN"),
        "{texts}"
    );
    assert!(texts.contains("the two printed torques agree"), "{texts}");
    let in_head = asked(json!({"down": "0.04 mm"}));
    let text = head(&in_head).lash_text.clone().expect("asked for");
    assert!(text.contains("moves no clearance"), "{text}");
}

/// 50 Nm and 50 lbf ft are two torques: nothing is tightened until it is known which holds.
#[test]
fn two_torques_that_are_not_one_stop_it() {
    let report = report(&json!({"head": {
        "bolts_are": "due", "torque": "50 Nm", "also_printed": "50 lbf ft"
    }}));
    assert!(
        matches!(&head(&report).advice, WorkAdvice::SettleFirst { text } if text.contains("which of the two"))
    );
    assert!(!report.sheet().contains("on the wrench, in the steps"));
}

/// Bolts of which nothing is said are no reason to stop, and that nothing is said is told.
#[test]
fn what_is_not_stated_is_asked_for() {
    let report = report(&json!({"valves": "settled", "head": {"bolts_are": "not_stated"}}));
    assert_eq!(step(&report, WorkStep::Head), Standing::NotKnown);
    assert_eq!(step(&report, WorkStep::Valves), Standing::Settled);
    assert!(
        matches!(&head(&report).advice, WorkAdvice::Measure { text } if text.contains("maker's manual"))
    );
}

/// A maker's order is taken as it is; one that begins at a corner of a long head is told as odd.
#[test]
fn an_order_from_the_end_is_told_as_odd() {
    let row = |name: &str, across: i32| {
        let one = move |i: i32| json!({"name": format!("{name}{i}"), "along": format!("{} mm", 90 * i), "across": format!("{across} mm")});
        (0..5).map(one).collect::<Vec<Value>>()
    };
    let bolts = [row("a", 0), row("b", 80)].concat();
    let with = |order: [&str; 10]| {
        report(&json!({"head": {"bolts_are": "settled", "bolts": bolts.clone(), "order": order}}))
    };
    let from_end = with(["a0", "a1", "a2", "a3", "a4", "b0", "b1", "b2", "b3", "b4"]);
    let faults = &head(&from_end).order_faults;
    assert!(
        faults[0].contains("begins with bolt a0, not in the middle"),
        "{faults:?}"
    );
    let from_middle = with(["a2", "b2", "b1", "a1", "a3", "b3", "b4", "a4", "a0", "b0"]);
    assert!(head(&from_middle).order_faults.is_empty());
    assert_eq!(head(&from_middle).order[0], "a2");
}

#[test]
fn what_cannot_be_is_refused_where_it_stands() {
    let at = |field: &str| format!("/condition/head{field}");
    let with = |field: &str, value: Value| {
        let mut asked = json!({"head": {"bolts_are": "due", "torque": "50 Nm", "bolts": bolts()}});
        asked["head"][field] = value;
        asked
    };
    let twice = json!([{"name": "a", "along": "0 mm", "across": "0 mm"}, {"name": "a", "along": "90 mm", "across": "0 mm"}]);
    refused_with(
        &at("/bolts"),
        "condition.head-bolt-twice",
        &with("bolts", twice),
    );
    refused_with(
        &at("/order"),
        "condition.head-other-bolts",
        &with("order", json!(["a", "b"])),
    );
    let small = json!({"scale_end": "20 Nm", "class_percent": 4});
    refused_with(
        &at("/wrench"),
        "condition.head-wrench-range",
        &with("wrench", small),
    );
    let class = json!({"scale_end": "200 Nm", "class_percent": 40});
    refused_with(
        &at("/wrench/class_percent"),
        "condition.head-wrench-class",
        &with("wrench", class),
    );
    let folded = json!({"wrench_length": "200 mm", "length": "190 mm", "turned": "180 deg"});
    refused_with(
        &at("/adapter"),
        "condition.head-folded-back",
        &with("adapter", folded),
    );
    let bolt = json!({"diameter": "10 mm", "nut_factor": 2.0, "tightening": "dry_torque"});
    refused_with(&at("/bolt"), "condition.head-number", &with("bolt", bolt));
    refused_with(
        &at("/settling"),
        "condition.head-number",
        &with("settling", json!({"down": "20 mm"})),
    );
}
