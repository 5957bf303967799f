//! What the job sheet of the invented warm twin says of cooling, of lash by temperature and of its lock
//! nuts.
#![allow(
    clippy::expect_used,
    clippy::panic,
    reason = "a test that cannot read its example stops with the reason"
)]

use lashwork::job::Report;
use lashwork_tests::examples;
use serde_json::{Value, json};

fn twin(edits: &[(&str, Value)]) -> Report {
    let found = examples()
        .into_iter()
        .find(|(name, _)| name == "upright-twin-warm.json");
    let (_, bytes) = found.expect("the warm twin");
    let mut document: Value = serde_json::from_slice(&bytes).expect("JSON");
    for (pointer, value) in edits {
        *document.pointer_mut(pointer).expect("the place") = value.clone();
    }
    lashwork_wire::report(document.to_string().as_bytes())
        .unwrap_or_else(|problems| panic!("{problems:?}"))
}

#[test]
fn the_sheet_says_how_long_to_wait_and_from_when() {
    let sheet = twin(&[]).sheet();
    assert!(sheet.contains("from the last reading, until"), "{sheet}");
    assert!(sheet.contains("the correction is sure enough already"));
    assert!(sheet.contains("parts and measured lash agree"));
}

/// The gap before locking comes first in the work and is the one that is felt with the nut loose.
#[test]
fn the_sheet_says_what_to_feel_before_locking_and_how_it_lands() {
    let report = twin(&[]);
    let valve = report.valves.first().expect("a valve");
    let advice = &valve.judged.last().expect("a judgement").advice;
    let before = advice.before_locking.as_ref().expect("a lock nut");
    let after = advice.feel_now.expect("a gap to feel");
    assert!((before.feel + before.shift - after).mm().abs() < 1e-12);
    let sheet = report.sheet();
    assert!(sheet.contains("with the nut still loose they should feel 0.143 mm"));
    assert!(sheet.contains("a reset lands in the set band with"));
}

/// A long table is thinned on paper, first and last row kept; the report keeps all of it.
#[test]
fn a_long_table_is_thinned_on_the_sheet_only() {
    let report = twin(&[("/metal/curve/step", json!("1 K"))]);
    let rows = |report: &Report| {
        let sheet = report.sheet();
        let table = sheet.split("[works-book], the whole engine").nth(1);
        let table = table.and_then(|t| t.split("\n\n").next()).expect("a table");
        table.lines().filter(|l| l.contains(" to ")).count()
    };
    assert!(report.lash_curves.iter().all(|c| c.points.len() == 61));
    assert!(rows(&report) <= 14, "{} rows", rows(&report));
    assert_eq!(rows(&twin(&[])), 7);
}

/// The correction that the wait is about follows the stated temperatures.
#[test]
fn surer_temperatures_make_a_surer_correction() {
    let now = |report: &Report| {
        let cooling = report.cooling.as_ref().expect("cooling");
        cooling.waits.iter().map(|w| w.now_mm).collect::<Vec<f64>>()
    };
    let stated = now(&twin(&[]));
    let surer = now(&twin(&[
        ("/metal/temperatures/0/uncertainty", json!("0.5 K")),
        ("/metal/temperatures/1/uncertainty", json!("0.5 K")),
    ]));
    for (stated, surer) in stated.iter().zip(&surer) {
        assert!(surer < stated, "{surer} {stated}");
    }
}
