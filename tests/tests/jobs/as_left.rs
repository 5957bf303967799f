//! What a valve reads after it was set: judged beside what was found, and of no weight in anything else.

#![expect(
    clippy::expect_used,
    reason = "a job that gives no report is a broken test"
)]

use lashwork::job::Report;
use lashwork::job::clearance::{ClearanceReport, ValveReport};
use lashwork::tolerance::Verdict;
use lashwork_tests::refusals::{example, only, places, problems, put, with};
use serde_json::{Value, json};

const LEFT: &str = "/clearance/readings/2/left";

/// A document in which the intake valve of cylinder 2 was found tight, and set.
fn set() -> Value {
    let left = json!({ "goes": ["0.18 mm"], "refuses": ["0.22 mm"] });
    with(example("inline-four.json"), &[(LEFT, left)])
}

fn report(document: &Value) -> Report {
    lashwork_wire::report(document.to_string().as_bytes()).expect("a report")
}

fn found(document: &Value) -> ClearanceReport {
    report(document).clearance.expect("clearances")
}

fn valve<'r>(found: &'r ClearanceReport, name: &str) -> &'r ValveReport {
    let mut all = found.valves.iter();
    all.find(|valve| valve.name == name).expect("the valve")
}

#[test]
fn it_is_judged_as_the_same_reading_would_be_if_it_were_found() {
    let set = found(&set());
    let read = valve(&set, "cylinder 2 intake");
    assert_eq!(read.judged[0].verdict, Verdict::Below);
    let left = read.left.as_ref().expect("as left");
    assert_eq!(left.reading, "0.18 mm goes, 0.22 mm does not");
    assert_eq!(left.judged[0].verdict, Verdict::InBand);
    let mut other = example("inline-four.json");
    let reading =
        json!({ "cylinder": "2", "valve": "intake", "goes": ["0.18 mm"], "refuses": ["0.22 mm"] });
    put(&mut other, "/clearance/readings/2", reading);
    let other = found(&other);
    let same = valve(&other, "cylinder 2 intake");
    // The advice may be taken back by what all found readings say together; the judgement may not.
    let (left, same) = (&left.judged[0], &same.judged[0]);
    assert_eq!(left.probabilities, same.probabilities);
    assert_eq!((left.low, left.high), (same.low, same.high));
    assert_eq!(left.verdict_text, same.verdict_text);
}

/// The readings as found are evidence of wear and of the crank; a valve that was set is none.
#[test]
fn nothing_else_changes_by_it() {
    for name in ["inline-four.json", "v-eight-shims.json"] {
        let before = example(name);
        let mut after = before.clone();
        let leaf = before.pointer("/clearance/gauge/leaves/3").cloned();
        let left = json!({ "goes": [leaf.expect("a leaf")] });
        for i in 0..4 {
            put(
                &mut after,
                &format!("/clearance/readings/{i}/left"),
                left.clone(),
            );
        }
        let mut after = found(&after);
        let lefts = after
            .valves
            .iter_mut()
            .filter_map(|valve| valve.left.take());
        assert_eq!(lefts.count(), 4, "{name}");
        assert_eq!(after, found(&before), "{name}");
    }
}

#[test]
fn the_sheet_shows_it_where_it_would_be_written() {
    let report = report(&set());
    let sheet = report.sheet();
    let row = sheet
        .lines()
        .find(|line| line.starts_with("  2 in "))
        .expect("a row");
    assert!(row.ends_with("  0.180 to 0.220 mm"), "{sheet}");
    let after = sheet
        .lines()
        .find(|line| line.starts_with("    as left "))
        .expect("a row");
    assert!(after.contains("0.18 mm goes, 0.22 mm does not"), "{sheet}");
    assert!(after.contains("in band"), "{sheet}");
    assert!(
        sheet.lines().all(|line| line.chars().count() <= 100),
        "{sheet}"
    );
    assert!(sheet.lines().all(|line| !line.ends_with(' ')), "{sheet}");
    let full = report.full_sheet();
    assert!(
        full.contains("    as left: 0.18 mm goes, 0.22 mm does not"),
        "{full}"
    );
    // Inches where the leaves are marked in them.
    let left = json!({ "goes": ["0.005 in"], "refuses": ["0.006 in"] });
    let twin = with(
        example("v-twin.json"),
        &[("/clearance/readings/0/left", left)],
    );
    let sheet = self::report(&twin).sheet();
    assert!(sheet.contains(" 0.0050 to 0.0060 in\n"), "{sheet}");
}

/// Common practice, no source: what spoils a reading spoils the next one taken the same way.
#[test]
fn what_must_be_settled_first_takes_its_advice_back_too() {
    let left = json!({ "nothing_goes": true });
    let document = with(
        example("exchanged-four.json"),
        &[("/clearance/readings/0/left", left)],
    );
    let found = found(&document);
    let valve = found.valves.iter().find(|valve| valve.left.is_some());
    let valve = valve.expect("as left");
    let left = valve.left.as_ref().expect("as left");
    assert_eq!(left.judged[0].advice, valve.judged[0].advice);
    assert!(left.judged[0].advice.text().starts_with("settle first"));
}

/// A valve that was set to no lash at all is as dangerous as one that was found so.
#[test]
fn a_valve_left_without_lash_gets_the_caution() {
    let mut document = set();
    let before = report(&document).cautions;
    put(&mut document, LEFT, json!({ "nothing_goes": true }));
    let after = report(&document).cautions;
    assert_eq!(after.len(), before.len() + 1, "{after:?}");
}

#[test]
fn a_hollow_is_still_there() {
    let hollow = json!({ "depth": "0.04 mm", "uncertainty": "0.01 mm" });
    let mut document = with(set(), &[("/clearance/readings/2/hollow", hollow)]);
    let low = |document: &Value| {
        let found = found(document);
        let left = valve(&found, "cylinder 2 intake")
            .left
            .clone()
            .expect("left");
        left.felt_low.expect("an end").mm()
    };
    assert!((low(&document) - 0.22).abs() < 1e-12);
    let none = json!({ "depth": "0 mm", "uncertainty": "0 mm" });
    put(&mut document, "/clearance/readings/2/left/hollow", none);
    assert!((low(&document) - 0.18).abs() < 1e-12);
}

#[test]
fn what_is_wrong_with_it_is_told_at_its_place() {
    let told = |left: Value, place: &str, code: &str| {
        let document = with(example("inline-four.json"), &[(LEFT, left)]);
        let problem = only(
            document.to_string().as_bytes(),
            &format!("{LEFT}{place}"),
            code,
        );
        assert!(!problem.hint.is_empty());
    };
    told(
        json!({ "goes": ["0.11 mm"] }),
        "/goes/0",
        "feeler.leaf-not-in-set",
    );
    told(json!({}), "", "feeler.reading");
    told(
        json!({ "goes": ["0.18 mm"], "shim": "2.50 mm" }),
        "/shim",
        "job.shim-unused",
    );
    told(
        json!({ "goes": ["0.18 mm"], "shim_uncertainty": "0.01 mm" }),
        "/shim_uncertainty",
        "job.shim-unused",
    );
    told(
        json!({ "gose": ["0.18 mm"] }),
        "/gose",
        "document.unknown-field",
    );
    // In front of an engine that cannot be read, too.
    let mut both = with(
        example("inline-four.json"),
        &[(LEFT, json!({ "goes": ["0.11 mm"] }))],
    );
    put(
        &mut both,
        "/engine/firing_order",
        json!(["1", "3", "4", "4"]),
    );
    let found = problems(both.to_string().as_bytes());
    let told = places(&found);
    assert!(
        told.iter().any(|(place, _)| place.starts_with(LEFT)),
        "{told:?}"
    );
}

#[test]
fn the_record_names_the_machine() {
    let record = json!({ "date": "3 May", "machine": "invented launch", "by": "me" });
    let report = report(&with(set(), &[("/record", record)]));
    assert!(
        report
            .sheet()
            .contains("machine invented launch date 3 May")
    );
    let full = report.full_sheet();
    assert!(
        full.contains("Record: date 3 May, machine invented launch, by me"),
        "{full}"
    );
}
