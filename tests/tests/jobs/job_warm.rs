//! What the job sheet of the invented warm twin says of cooling, of lash by temperature and of its lock
//! nuts.
#![allow(
    clippy::expect_used,
    clippy::panic,
    reason = "a test that cannot read its example stops with the reason"
)]

use approx::assert_abs_diff_eq;
use lashwork::clearance::Advice;
use lashwork::job::Report;
use lashwork_tests::{clearance, examples};
use serde_json::{Value, json};

/// The twin by one of its two books alone: where both may apply and disagree, that comes first.
fn twin_by(book: usize, edits: &[(&str, Value)]) -> Report {
    changed(edits, |document| {
        let books = document.pointer_mut("/clearance/specifications");
        let books = books.and_then(Value::as_array_mut).expect("books");
        *books = books.drain(..).skip(book).take(1).collect();
    })
}

fn twin(edits: &[(&str, Value)]) -> Report {
    changed(edits, |_| {})
}

fn changed(edits: &[(&str, Value)], last: impl Fn(&mut Value)) -> Report {
    let found = examples()
        .into_iter()
        .find(|(name, _)| name == "upright-twin-warm.json");
    let (_, bytes) = found.expect("the warm twin");
    let mut document: Value = serde_json::from_slice(&bytes).expect("JSON");
    for (pointer, value) in edits {
        *document.pointer_mut(pointer).expect("the place") = value.clone();
    }
    last(&mut document);
    lashwork_wire::report(document.to_string().as_bytes())
        .unwrap_or_else(|problems| panic!("{problems:?}"))
}

#[test]
fn the_sheet_says_how_long_to_wait_and_from_when() {
    let sheet = twin(&[]).full_sheet();
    assert!(sheet.contains("from the last reading, until"), "{sheet}");
    assert!(sheet.contains("the correction is certain enough already"));
    assert!(sheet.contains("parts and measured lash agree"));
}

/// The gap before locking comes first in the work and is the one that is felt with the nut loose.
#[test]
fn the_sheet_says_what_to_feel_before_locking_and_how_it_lands() {
    let report = twin_by(1, &[]);
    let valve = clearance(&report).valves.first().expect("a valve");
    let advice = &valve.judged.last().expect("a judgement").advice;
    let before = advice
        .reset()
        .and_then(|r| r.before_locking.as_ref())
        .expect("a lock nut");
    let after = advice
        .reset()
        .and_then(|r| r.feel_now)
        .expect("a gap to feel");
    assert_abs_diff_eq!(
        (before.feel + before.shift - after).mm(),
        0.0,
        epsilon = 1e-12
    );
    let sheet = report.full_sheet();
    assert!(sheet.contains("with the nut still loose it must be 0.14 mm"));
    assert!(sheet.contains("chance of being in the set band"));
}

/// A long table is thinned on paper, first and last row kept; the report keeps all of it.
#[test]
fn a_long_table_is_thinned_on_the_sheet_only() {
    let report = twin(&[("/clearance/metal/curve/step", json!("1 K"))]);
    let rows = |report: &Report| {
        let sheet = report.full_sheet();
        let table = sheet.split("[works-book], the whole engine").nth(1);
        let table = table.and_then(|t| t.split("\n\n").next()).expect("a table");
        table.lines().filter(|l| l.contains(" to ")).count()
    };
    assert!(
        clearance(&report)
            .warmth
            .lash_curves
            .iter()
            .all(|c| c.points.len() == 61)
    );
    assert!(rows(&report) <= 14, "{} rows", rows(&report));
    assert_eq!(rows(&twin(&[])), 7);
}

/// The correction that the wait is about follows the stated temperatures.
#[test]
fn surer_temperatures_make_a_surer_correction() {
    let now = |report: &Report| {
        let cooling = clearance(report).warmth.cooling.as_ref().expect("cooling");
        cooling.waits.iter().map(|w| w.now_mm).collect::<Vec<f64>>()
    };
    let stated = now(&twin(&[]));
    let surer = now(&twin(&[
        (
            "/clearance/metal/temperatures/0/uncertainty",
            json!("0.5 K"),
        ),
        (
            "/clearance/metal/temperatures/1/uncertainty",
            json!("0.5 K"),
        ),
    ]));
    for (stated, surer) in stated.iter().zip(&surer) {
        assert!(surer < stated, "{surer} {stated}");
    }
}

fn lock_nut(after: [&str; 2], book: usize) -> Report {
    let pair = |after: &&str| json!({"before": "0.05 mm", "after": after});
    let pairs: Vec<Value> = after.iter().map(pair).collect();
    twin_by(
        book,
        &[("/clearance/valves/screw/lock_nut/pairs", json!(pairs))],
    )
}

/// A nut that opens the gap by more than the gap wanted leaves nothing to set by leaves beforehand.
#[test]
fn no_gap_below_zero_is_to_be_felt_before_locking() {
    let report = lock_nut(["0.25 mm", "0.26 mm"], 0);
    let judged = clearance(&report).valves.iter().flat_map(|v| &v.judged);
    let advices: Vec<&Advice> = judged.map(|j| &j.advice).collect();
    let negative = |text: &str| text.contains("there would be no gap to feel (-");
    assert!(advices.iter().any(|a| negative(a.text())));
    for advice in advices {
        // A gap far from its value has causes to look at; what the nut does is its own.
        let finds_out = matches!(advice, Advice::FindCause { causes, .. } if causes.is_empty());
        assert_eq!(negative(advice.text()), finds_out, "{advice:?}");
        let before = advice.reset().and_then(|r| r.before_locking.as_ref());
        assert!(before.is_none_or(|b| b.feel.mm() > 0.0));
    }
    assert!(!report.full_sheet().contains("it must be -"));
}

/// Set hot, this engine would have its valves held open when cold.
#[test]
fn no_gap_below_zero_is_to_be_felt_at_the_present_temperature() {
    // One reading, which no others can put in doubt.
    let one = json!([{ "cylinder": "1", "valve": "intake", "goes": ["0.10 mm"], "refuses": ["0.12 mm"] }]);
    let hot = [
        ("/clearance/readings", one),
        ("/clearance/specifications/0/condition", json!("hot")),
        ("/clearance/specifications/0/reference", json!("90 C")),
    ];
    // Three readings: with four, that they do not fit a hot engine would come first.
    let report = changed(&hot, |document| {
        let books = document.pointer_mut("/clearance/specifications");
        books
            .and_then(Value::as_array_mut)
            .expect("books")
            .truncate(1);
        let readings = document.pointer_mut("/clearance/readings");
        readings
            .and_then(Value::as_array_mut)
            .expect("readings")
            .truncate(3);
    });
    let sheet = report.full_sheet();
    assert!(
        sheet.contains("there would then be no gap for the leaves at the present temperature (-")
    );
    assert!(!sheet.contains("must then be -"), "{sheet}");
    let warning = "below zero there is no gap left";
    assert!(sheet.contains(warning) && !twin(&[]).full_sheet().contains(warning));
}

/// That the thinnest leaf, 0.04 mm, does not go shows no gap: 0.007 mm is to be felt.
#[test]
fn a_gap_thinner_than_every_leaf_is_given_no_leaves_to_find() {
    let reports = [0, 1].map(|book| lock_nut(["0.15 mm", "0.16 mm"], book));
    let valves = reports.iter().flat_map(|report| &clearance(report).valves);
    let judged = valves.flat_map(|v| &v.judged);
    let before: Vec<_> = judged
        .filter_map(|j| j.advice.reset()?.before_locking.as_ref())
        .collect();
    let thin = before
        .iter()
        .find(|b| b.feel.mm() < 0.01)
        .expect("a gap of 0.007 mm");
    assert_eq!(thin.leaves, None);
    let report = lock_nut(["0.06 mm", "0.07 mm"], 0);
    let mut judged = clearance(&report).valves.iter().flat_map(|v| &v.judged);
    let has_leaves = |advice: &Advice| {
        let before = advice.reset().and_then(|r| r.before_locking.as_ref());
        before.is_some_and(|b| b.leaves.is_some())
    };
    assert!(judged.any(|j| has_leaves(&j.advice)));
}

/// The stated temperatures are taken to be those of the last cooling reading: 30 C and 40 C against
/// some 40 C agree, against some 20 C two hours later they do not.
#[test]
fn a_last_cooling_reading_outside_the_stated_temperatures_is_pointed_out() {
    let at_odds = |report: &Report| {
        clearance(report)
            .warmth
            .cooling
            .as_ref()
            .expect("cooling")
            .at_odds
            .clone()
    };
    assert_eq!(at_odds(&twin(&[])), None);
    let later = twin(&[(
        "/clearance/metal/cooling/readings/4",
        json!({"after": "180 min", "is": "20.4 C"}),
    )]);
    let text = at_odds(&later).expect("a contradiction");
    assert!(text.contains("24 C to 46 C"), "{text}");
    assert!(later.full_sheet().contains(&text));
}

/// The two kelvin are `ASSUMED_THERMOMETER`, this library's choice.
#[test]
fn a_temperature_without_its_uncertainty_is_taken_as_two_kelvin_and_listed() {
    let warmth = |u: Option<&str>| {
        let mut metal = json!({
            "temperature": { "is": "40 C" },
            "measured": [
                { "at": "20 C", "lash": "0.10 mm", "uncertainty": "0.004 mm" },
                { "at": "70 C", "lash": "0.16 mm", "uncertainty": "0.004 mm" },
            ],
        });
        if let Some(u) = u {
            metal["temperature"]["uncertainty"] = json!(u);
        }
        twin(&[("/clearance/metal", metal)])
    };
    let code = "thermal.thermometer";
    let (open, stated, surer) = (warmth(None), warmth(Some("2 K")), warmth(Some("1 K")));
    assert_eq!(clearance(&open).valves, clearance(&stated).valves);
    assert_ne!(clearance(&open).valves, clearance(&surer).valves);
    let listed = |report: &Report| report.assumptions.iter().any(|a| a.code == code);
    assert!(listed(&open) && !listed(&stated));
}
