//! What may be the matter, by what the sections of a document found.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot read its document stops with the reason"
)]

use super::condition_read::document;
use super::ignition_four::{assumed, four, run};
use lashwork::causes::{Cause, CauseLook, CauseVerdict};
use lashwork::job::Report;
use lashwork::job::causes::CausesReport;
use lashwork_tests::refusals::example;
use serde_json::{Value, json};

fn causes(report: &Report) -> &CausesReport {
    report.causes.as_ref().expect("asked for")
}

/// The invented four with a condition section and plugs.
fn with_condition(condition: &Value, plugs: &Value) -> Report {
    let mut document = document(condition);
    document["causes"] = json!({ "plugs": plugs });
    run(&document)
}

fn compression(psi: [f64; 4]) -> Value {
    let one = |(i, psi): (usize, &f64)| json!({"cylinder": (i + 1).to_string(), "dry": format!("{psi} psi"), "wet": format!("{} psi", psi + 4.0)});
    json!({
        "readings": psi.iter().enumerate().map(one).collect::<Value>(),
        "cranked": {"warm": true, "throttle_open": true, "all_plugs_out": true, "battery_good": true, "strokes": 6}
    })
}

/// Two neighbours low and no better with oil: the head gasket (compression tests of GM and Ford service texts); air
/// at each other's plug holes says the same (common practice, no source), and less than it would alone.
#[test]
fn two_low_neighbours_are_the_gasket_between_them() {
    let low = compression([148.0, 96.0, 99.0, 151.0]);
    let report = with_condition(
        &json!({"valves": "settled", "compression": low}),
        &json!([]),
    );
    let first = &causes(&report).causes[0];
    assert_eq!(
        (first.cause, &first.places[0].cylinders[..]),
        (Cause::HeadGasket, &["2".to_owned(), "3".to_owned()][..])
    );
    let leak = json!({
        "tester": {"supply": "80 psi", "supply_uncertainty": "1 psi", "orifice": "0.040 in"},
        "readings": [
            {"cylinder": "2", "shows": "41 psi", "held": true, "plug_holes": ["3"]},
            {"cylinder": "3", "shows": "43 psi", "held": true, "plug_holes": ["2"]}
        ],
        "rule": {"of_bore": true}, "warm": true
    });
    let both = with_condition(
        &json!({"valves": "settled", "bore": "74 mm", "compression": low, "leak": leak}),
        &json!([{"cylinder": "2", "seen": "wet"}]),
    );
    let found = causes(&both);
    assert_eq!(found.verdict, CauseVerdict::Settled);
    assert_eq!(found.causes[0].cause, Cause::HeadGasket);
    assert!(found.causes[0].probability > first.probability);
    let looks: Vec<CauseLook> = found.causes[0].speaks.iter().map(|own| own.look).collect();
    assert_eq!(
        looks,
        [CauseLook::Compression, CauseLook::Leak, CauseLook::Plugs]
    );
    // The sheet names it, says why, and how far to trust it.
    let sheet = both.full_sheet();
    for said in [
        "By all that was found: the head gasket leaks",
        "between cylinders 2 and 3",
        "leak-down ",
        " for it (+",
        "simulated engines only",
    ] {
        assert!(sheet.contains(said), "{said}: {sheet}");
    }
    assert!(!both.sheet().contains("By all that was found"));
    let (_, own) = sheet
        .split_once("What may be the matter\n")
        .expect("written");
    let (own, _) = own.split_once("Assumptions made").expect("after it");
    assert!(own.lines().all(|line| line.chars().count() <= 100), "{own}");
    assert!(
        own.contains("over 97 %") && !own.contains("over 99"),
        "{own}"
    );
    assert!(assumed(&both, "causes.simulated-only") && assumed(&both, "causes.chances-chosen"));
}

/// A spark found late is late, and dwell that has grown speaks for it (a rubbing block that wears: Falcon XA manual).
#[test]
fn ignition_that_is_late_is_named() {
    let late = |dwell: &str| {
        let mut document = four(&json!({
            "valves": "settled",
            "contacts": {
                "dwell": {"shows": dwell, "uncertainty": "0.5 deg"},
                "dwell_limits": {"from": "57 deg", "to": "63 deg"}
            },
            "distributor": {"rotor": "anticlockwise", "clamp": "60 mm"},
            "timing": {
                "limits": {"from": "8 deg BTDC", "to": "12 deg BTDC"},
                "reading": {"read": {"deg_btdc": 3.0}, "uncertainty": "0.5 deg", "lamp_delay_us": 0}
            }
        }));
        document["causes"] = json!({});
        run(&document)
    };
    let (grown, right) = (late("69 deg"), late("60 deg"));
    let probability = |report: &Report| {
        let found = &causes(report).causes[0];
        assert_eq!(found.cause, Cause::SparkLate);
        found.probability
    };
    assert!(probability(&grown) > probability(&right));
    assert!(causes(&grown).causes[0].places[0].cylinders.is_empty());
}

/// A seat that sinks closes the clearance (SAE 710841, 861550, abstracts): past services that show one valve closing
/// unlike its mates name it while it is still in its band; without them nothing speaks for it.
#[test]
fn past_services_are_evidence() {
    let mut document = example("inline-four-with-history.json");
    document["causes"] = json!({});
    let with = run(&document);
    document
        .as_object_mut()
        .expect("a document")
        .remove("history");
    let without = run(&document);
    let valves = |report: &Report| {
        let found = &causes(report).causes;
        let of_third = |cause: Cause| {
            let own = found.iter().find(|own| own.cause == cause)?;
            let place = own.places.iter().find(|at| at.cylinders == ["3"])?;
            Some(place.probability)
        };
        let both = [Cause::ValveBurnt, Cause::ValveTight].map(of_third);
        both.iter().flatten().sum::<f64>()
    };
    assert!(valves(&with) > 0.12, "{}", with.full_sheet());
    // Nothing else was looked at but clearances, which are in their bands.
    assert!(valves(&without) < 0.03, "{}", without.full_sheet());
    // All of the record is there: it is no next look.
    let next = &causes(&with).next;
    assert!(
        next.iter().all(|own| own.at != CauseLook::Records),
        "{next:?}"
    );
    let first = &causes(&with).causes[0];
    assert_eq!(
        (first.cause, &first.places[0].cylinders[..]),
        (Cause::ValveBurnt, &["3".to_owned()][..])
    );
    let records = first
        .speaks
        .iter()
        .find(|own| own.look == CauseLook::Records);
    assert!(records.expect("weighed").adds_db > 5.0, "{first:?}");
    assert!(!causes(&with).not_looked_at.contains(&CauseLook::Records));
}

/// Nothing found, nothing said: but where to look, with what must be sure first.
#[test]
fn nothing_found_says_where_to_look() {
    let mut document = four(&json!({}));
    document["causes"] = json!({});
    let report = run(&document);
    let found = causes(&report);
    assert_eq!(found.verdict, CauseVerdict::NothingSeen);
    assert!(found.causes.is_empty() && found.next.len() == 3);
    assert_eq!(found.not_looked_at.len(), 9);
    let rate = |at: usize| found.next[at].bits / found.next[at].minutes;
    assert!(rate(0) >= rate(1) && rate(1) >= rate(2));
    assert!(
        found
            .next
            .iter()
            .all(|next| next.text.contains("; first: "))
    );
}

/// What a section doubts itself is no sign: a throttle kept shut lowers all readings.
#[test]
fn doubtful_readings_are_not_weighed() {
    let mut low = compression([148.0, 96.0, 99.0, 151.0]);
    low["cranked"]["throttle_open"] = json!(false);
    let report = with_condition(
        &json!({"valves": "settled", "compression": low}),
        &json!([]),
    );
    let found = causes(&report);
    assert_eq!(found.verdict, CauseVerdict::NothingSeen);
    assert!(
        found.remarks[0].starts_with("compression: "),
        "{:?}",
        found.remarks
    );
}

/// A two-stroke has no valves to burn.
#[test]
fn a_two_stroke_has_no_valves() {
    let document = json!({
        "engine": {
            "cycle": "two_stroke", "cylinders": [{"label": "1"}], "firing_order": ["1"], "firing": "even",
            "rotation": {"sense": "clockwise", "seen_from": "free_end"}, "numbering": "free_end"
        },
        "causes": {"plugs": [{"cylinder": "1", "seen": "wet"}]}
    });
    let report = run(&document);
    let found = causes(&report);
    assert_eq!(found.causes[0].cause, Cause::SparkWeak);
    let valves = [
        Cause::ValveBurnt,
        Cause::ValveTight,
        Cause::CamWorn,
        Cause::CamToothOut,
    ];
    assert!(found.causes.iter().all(|own| !valves.contains(&own.cause)));
}

#[test]
fn plugs_that_cannot_be_are_refused_in_place() {
    let refused = |plugs: &Value| {
        let mut document = four(&json!({}));
        document["causes"] = json!({ "plugs": plugs });
        let problems = lashwork_wire::report(document.to_string().as_bytes()).expect_err("refused");
        assert!(!problems[0].hint.is_empty());
        (problems[0].place.clone(), problems[0].code.clone())
    };
    let own = |place: &str, code: &str| (place.to_owned(), code.to_owned());
    assert_eq!(
        refused(&json!([{"cylinder": "1", "seen": "oily"}, {"cylinder": "7", "seen": "oily"}])),
        own("/causes/plugs/1/cylinder", "job.no-such-cylinder")
    );
    assert_eq!(
        refused(&json!([{"cylinder": "1", "seen": "oily"}, {"cylinder": "1", "seen": "wet"}])),
        own("/causes/plugs/1/cylinder", "causes.plug-seen-twice")
    );
    assert_eq!(
        refused(&json!([{"cylinder": "1", "seen": "purple"}])).0,
        "/causes/plugs/0/seen"
    );
}
