//! Documents that must be refused: each fault with its code, its place and what to do.
#![allow(
    clippy::panic,
    reason = "a document that does not come apart as written is a broken test"
)]

use lashwork_tests::refusals::{self, example, only, places, problems, put};
use lashwork_wire::Problem;
use serde_json::{Value, json};

/// The inline-four example as a value.
fn document() -> Value {
    example("inline-four.json")
}

/// The example with some values put in.
fn with(edits: &[(&str, Value)]) -> Value {
    refusals::with(document(), edits)
}

fn without(pointer: &str) -> Value {
    let mut document = document();
    let (parent, key) = pointer.rsplit_once('/').unwrap_or_default();
    let parent = document.pointer_mut(parent).and_then(Value::as_object_mut);
    let removed = parent.and_then(|map| map.remove(key));
    assert!(removed.is_some(), "no {pointer}");
    document
}

/// As [`only`], for the example with edits.
fn only_with(edits: &[(&str, Value)], place: &str, code: &str) -> Problem {
    only(with(edits).to_string().as_bytes(), place, code)
}

#[test]
fn the_example_itself_is_accepted() {
    assert!(lashwork_wire::report(document().to_string().as_bytes()).is_ok());
}

#[test]
fn bytes_that_are_no_document() {
    only(b"", "", "document.not-json");
    only(b"   \n", "", "document.not-json");
    only(b"\xff\xfe{}", "", "document.not-json");
    only(b"{\"lashwork\": 1", "", "document.not-json");
    only(b"{\"lashwork\": 1} {}", "", "document.not-json");
    only(b"{\"lashwork\": 1e999}", "", "document.not-json");
    only(b"{\"lashwork\": NaN}", "", "document.not-json");
    only(b"{\"lashwork\": Infinity}", "", "document.not-json");
    for bytes in ["[]", "null", "1", "\"text\"", "true"] {
        only(bytes.as_bytes(), "", "document.wrong-type");
    }
}

#[test]
fn an_empty_object_lacks_every_needed_field() {
    let engine = only(b"{}", "", "document.missing-field");
    assert!(engine.hint.contains("engine"), "{engine:?}");
    let mut empty = document();
    put(&mut empty, "/clearance", json!({}));
    let found = problems(empty.to_string().as_bytes());
    assert_eq!(
        places(&found),
        [("/clearance", "document.missing-field"); 4],
        "{found:?}"
    );
}

#[test]
fn a_huge_document_is_not_parsed() {
    let mut bytes = document().to_string().into_bytes();
    bytes.resize(lashwork_wire::MAX_BYTES, b' ');
    assert!(lashwork_wire::report(&bytes).is_ok());
    bytes.push(b' ');
    only(&bytes, "", "document.too-large");
}

/// Once a hundred thousand cylinders kept the kernel busy for minutes.
#[test]
fn lists_without_end_are_refused_at_once() {
    let labels: Vec<Value> = (1..=100_000).map(|i| json!(i.to_string())).collect();
    let cylinders: Vec<Value> = labels.iter().map(|l| json!({ "label": l })).collect();
    let code = "document.too-many";
    let mut long = with(&[("/clearance/readings", json!([]))]);
    put(&mut long, "/engine/cylinders", json!(cylinders));
    only(long.to_string().as_bytes(), "/engine/cylinders", code);
    let order = [("/engine/firing_order", json!(labels))];
    only_with(&order, "/engine/firing_order", code);
    let many: Vec<Value> = (0..101)
        .map(|i| {
            let mut one = document()
                .pointer("/clearance/specifications/0")
                .cloned()
                .unwrap_or_default();
            put(&mut one, "/id", json!(i.to_string()));
            one
        })
        .collect();
    only_with(
        &[("/clearance/specifications", json!(many))],
        "/clearance/specifications",
        code,
    );
}

/// No list needs more than there may be readings, and no object has so many fields: once ten thousand leaves of a
/// gauge were taken for what a mechanic has in his hand.
#[test]
fn nothing_holds_more_than_a_job_may_have_readings() {
    let code = "document.too-many";
    let leaves = |count| vec![json!("0.20 mm"); count];
    let gauge = "/clearance/gauge/leaves";
    let held = with(&[(gauge, json!(leaves(2_048)))]).to_string();
    let of_leaves = |text: &str| {
        let found = lashwork_wire::report(text.as_bytes()).err();
        found.is_some_and(|all| all.iter().any(|one| one.code == code))
    };
    assert!(!of_leaves(&held));
    only_with(&[(gauge, json!(leaves(2_049)))], gauge, code);
    let many: serde_json::Map<String, Value> = (0..2_049)
        .map(|number| (format!("field {number}"), Value::Null))
        .collect();
    only(
        json!({ "engine": many }).to_string().as_bytes(),
        "/engine",
        code,
    );
}

#[test]
fn deep_nesting_does_not_overflow() {
    for depth in [200, 100_000, lashwork_wire::MAX_BYTES / 2] {
        let lists = "[".repeat(depth) + &"]".repeat(depth);
        only(lists.as_bytes(), "", "document.not-json");
    }
    let maps = "{\"a\":".repeat(100_000) + "1" + &"}".repeat(100_000);
    only(maps.as_bytes(), "", "document.not-json");
}

#[test]
fn values_of_the_wrong_type() {
    let wrong = "document.wrong-type";
    only_with(&[("/title", json!(5))], "/title", wrong);
    only_with(&[("/engine", json!([]))], "/engine", wrong);
    only_with(
        &[("/clearance/readings", json!({}))],
        "/clearance/readings",
        wrong,
    );
    only_with(
        &[("/clearance/readings/2", json!("x"))],
        "/clearance/readings/2",
        wrong,
    );
    only_with(
        &[("/clearance/start", json!(null))],
        "/clearance/start",
        wrong,
    );
    let place = "/clearance/valves/intake_per_cylinder";
    only_with(&[(place, json!("one"))], place, wrong);
    only_with(
        &[("/clearance/gauge/leaves/3", json!(true))],
        "/clearance/gauge/leaves/3",
        wrong,
    );
    let leaf = json!({ "mm": "thin" });
    only_with(
        &[("/clearance/gauge/leaves/3", leaf)],
        "/clearance/gauge/leaves/3",
        wrong,
    );
}

#[test]
fn counts_outside_their_range() {
    for count in [json!(-1), json!(256), json!(1e30)] {
        let found = problems(
            with(&[("/clearance/valves/intake_per_cylinder", count)])
                .to_string()
                .as_bytes(),
        );
        assert!(
            found
                .iter()
                .any(|p| p.place == "/clearance/valves/intake_per_cylinder"),
            "{found:?}"
        );
    }
}

#[test]
fn numbers_without_a_unit() {
    for number in [json!(0.15), json!(1), json!(-1), json!("0.15")] {
        only_with(
            &[("/clearance/gauge/leaves/3", number)],
            "/clearance/gauge/leaves/3",
            "quantity.no-unit",
        );
    }
    let place = "/clearance/valves/guard";
    only_with(&[(place, json!(20))], place, "quantity.no-unit");
    only_with(&[(place, json!("20 mm"))], place, "quantity.unknown-unit");
}

#[test]
fn figures_as_they_stand_on_paper_come_with_how_to_write_them() {
    let events = "/clearance/valves/events/intake_opens_btdc";
    for (place, text, what) in [
        (events, "15 deg ATDC", "in the name of the field"),
        (
            "/clearance/gauge/tolerance",
            "1/4 mm",
            "as a decimal number",
        ),
        (
            "/clearance/specifications/0/reference",
            "15-25 C",
            "one value",
        ),
        (
            "/clearance/specifications/0/reference",
            "20 +/- 5 C",
            "one value",
        ),
    ] {
        let problem = only_with(&[(place, json!(text))], place, "quantity.unknown-unit");
        assert!(problem.hint.contains(what), "{problem:?}");
    }
    let place = "/engine/rotation";
    let problem = only_with(&[(place, json!("clockwise"))], place, "document.wrong-type");
    assert!(problem.hint.contains("sense, seen_from"), "{problem:?}");
}

#[test]
fn gaps_and_leaves_below_nothing() {
    let leaf = [("/clearance/gauge/leaves/0", json!("-0.05 mm"))];
    only_with(&leaf, "/clearance/gauge/leaves", "feeler.leaf-not-positive");
    let leaf = [("/clearance/gauge/leaves/0", json!("0 mm"))];
    only_with(&leaf, "/clearance/gauge/leaves", "feeler.leaf-not-positive");
    let band = json!({ "from": "-0.18 mm", "to": "0.22 mm" });
    only_with(
        &[("/clearance/specifications/1/intake/set", band)],
        "/clearance/specifications/1/intake/set/from",
        "tolerance.negative-limit",
    );
}

#[test]
fn impossible_firing_orders() {
    let place = "/engine/firing_order";
    let missing = json!(["1", "3", "4"]);
    only_with(&[(place, missing)], "/engine", "engine.order-missing");
    let twice = json!(["1", "3", "4", "2", "3"]);
    only_with(&[(place, twice)], "/engine", "engine.order-twice");
    let unknown = json!(["1", "3", "4", "2", "5"]);
    only_with(&[(place, unknown)], "/engine", "engine.order-unknown");
    let swapped = problems(
        with(&[(place, json!(["1", "4", "3", "2"]))])
            .to_string()
            .as_bytes(),
    );
    assert!(swapped.iter().all(|p| p.place == "/engine"), "{swapped:?}");
}

#[test]
fn cylinders_of_one_name() {
    let found = problems(
        with(&[("/engine/cylinders/1/label", json!("1"))])
            .to_string()
            .as_bytes(),
    );
    assert!(
        places(&found).contains(&("/engine", "engine.label-twice")),
        "{found:?}"
    );
}

#[test]
fn gauges_that_measure_nothing() {
    only_with(
        &[("/clearance/gauge/leaves", json!([]))],
        "/clearance/gauge/leaves",
        "feeler.no-leaves",
    );
    only_with(
        &[("/clearance/gauge/leaves/1", json!("50 um"))],
        "/clearance/gauge/leaves",
        "feeler.leaf-twice",
    );
}

#[test]
fn a_leaf_lies_in_a_stack_no_more_often_than_there_is_one() {
    let place = "/clearance/readings/0";
    let twice = json!({ "cylinder": "1", "valve": "intake", "goes": ["0.05 mm", "0.05 mm"] });
    let problem = only_with(
        &[(place, twice.clone())],
        "/clearance/readings/0/goes",
        "feeler.not-so-many",
    );
    assert!(problem.hint.contains("twice in the gauge"), "{problem:?}");
    let two_of_it = with(&[
        (place, twice),
        ("/clearance/gauge/leaves/1", json!("0.05 mm")),
    ]);
    let answer = lashwork_wire::report(two_of_it.to_string().as_bytes());
    let said = answer.err().unwrap_or_default();
    assert!(
        said.iter().all(|p| p.code != "feeler.not-so-many"),
        "{said:?}"
    );
}

#[test]
fn a_hand_or_a_joint_below_zero_is_refused_at_the_gauge_whatever_was_read() {
    for field in ["hand", "joint"] {
        let place = format!("/clearance/gauge/{field}");
        let edits = [
            (place.as_str(), json!("-0.01 mm")),
            ("/clearance/readings", json!([])),
        ];
        only_with(&edits, &place, "feeler.negative");
    }
}

/// An odd row of cylinders that fires evenly is a radial more often than not; common practice, no source.
#[test]
fn five_cylinders_that_stand_nobody_knows_how_are_said_to_be_taken_as_in_line() {
    let five = |cylinder: fn(usize) -> Value| {
        let cylinders: Vec<Value> = (1..=5).map(cylinder).collect();
        let document = with(&[
            ("/engine/cylinders", json!(cylinders)),
            ("/engine/firing_order", json!(["1", "3", "5", "2", "4"])),
            ("/clearance/readings", json!([])),
        ]);
        let report = lashwork_wire::report(document.to_string().as_bytes()).expect("a report");
        report.assumptions.iter().any(|a| a.code == "engine.layout")
    };
    assert!(five(|n| json!({ "label": n.to_string() })));
    assert!(!five(
        |n| json!({ "label": n.to_string(), "bank": "0 deg", "crankpin": format!("{} deg", (360 - 72 * (n - 1)) % 360) })
    ));
}

#[test]
fn readings_that_cannot_be() {
    let go_above =
        json!({ "cylinder": "1", "valve": "intake", "goes": ["0.20 mm"], "refuses": ["0.18 mm"] });
    only_with(
        &[("/clearance/readings/0", go_above)],
        "/clearance/readings/0",
        "feeler.contradiction",
    );
    let no_leaf = json!({ "cylinder": "1", "valve": "intake", "goes": ["0.17 mm"] });
    let problem = only_with(
        &[("/clearance/readings/0", no_leaf)],
        "/clearance/readings/0/goes/0",
        "feeler.leaf-not-in-set",
    );
    assert!(problem.hint.contains("0.18 mm"), "{problem:?}");
    only_with(
        &[("/clearance/readings/1/valve", json!("intake"))],
        "/clearance/readings/1",
        "job.valve-read-twice",
    );
    let problem = only_with(
        &[("/clearance/readings/1/cylinder", json!("11"))],
        "/clearance/readings/1/cylinder",
        "job.no-such-cylinder",
    );
    assert!(problem.hint.contains("did you mean \"1\""), "{problem:?}");
    only_with(
        &[("/clearance/readings/1/number", json!(2))],
        "/clearance/readings/1/number",
        "job.no-such-valve",
    );
    let nothing = json!({ "cylinder": "1", "valve": "intake" });
    only_with(
        &[("/clearance/readings/0", nothing)],
        "/clearance/readings/0",
        "feeler.reading",
    );
    only_with(
        &[("/clearance/start", json!("9"))],
        "/clearance/start",
        "job.no-such-cylinder",
    );
}

#[test]
fn temperatures_below_absolute_zero() {
    for (text, code) in [
        ("-273.2 C", "quantity.out-of-range"),
        ("-1 K", "quantity.out-of-range"),
        ("-500 F", "quantity.out-of-range"),
    ] {
        let place = "/clearance/metal/temperatures/0/is";
        only_with(&[(place, json!(text))], place, code);
    }
}

#[test]
fn specifications_that_contradict_themselves() {
    let place = "/clearance/specifications/0/intake/set";
    let crossed = json!({ "from": "0.22 mm", "to": "0.18 mm" });
    only_with(&[(place, crossed)], place, "tolerance.crossed-limits");
    only_with(&[(place, json!({}))], place, "tolerance.empty-band");
    only_with(
        &[(
            "/clearance/specifications/0/intake/set_to",
            json!("0.50 mm"),
        )],
        "/clearance/specifications/0/intake",
        "tolerance.set-to-outside-set",
    );
    only_with(
        &[("/clearance/specifications/1/id", json!("book"))],
        "/clearance/specifications/1/id",
        "tolerance.id-twice",
    );
}

#[test]
fn keys_that_stand_twice() {
    let text = document().to_string();
    let top = text.replacen("\"title\"", "\"title\": \"First\", \"title\"", 1);
    only(top.as_bytes(), "/title", "document.key-twice");
    let nested = text.replacen("\"guard\"", "\"guard\": \"1 deg\", \"guard\"", 1);
    only(
        nested.as_bytes(),
        "/clearance/valves/guard",
        "document.key-twice",
    );
}

#[test]
fn unknown_names_come_with_the_nearest_known_one() {
    let code = "document.unknown-field";
    let problem = only_with(&[("/titel", json!("x"))], "/titel", code);
    assert!(problem.hint.contains("\"title\""), "{problem:?}");
    let problem = only_with(
        &[("/engine/numbring", json!("x"))],
        "/engine/numbring",
        code,
    );
    assert!(problem.hint.contains("\"numbering\""), "{problem:?}");
    let place = "/clearance/readings/0/refusse";
    let problem = only_with(&[(place, json!([]))], place, code);
    assert!(problem.hint.contains("\"refuses\""), "{problem:?}");
    let problem = only_with(&[("/a~1b~0", json!(1))], "/a~01b~00", code);
    assert!(!problem.hint.contains("did you mean"), "{problem:?}");
    let place = "/engine/cycle";
    let problem = only_with(
        &[(place, json!("four_strok"))],
        place,
        "document.unknown-value",
    );
    assert!(problem.hint.contains("\"four_stroke\""), "{problem:?}");
    let place = "/clearance/metal/parts/1/material";
    let problem = only_with(
        &[(place, json!("steel 1021"))],
        place,
        "thermal.no-such-material",
    );
    assert!(problem.hint.contains("\"steel 1020\""), "{problem:?}");
}

#[test]
fn other_format_versions() {
    for version in [0, 2, 99] {
        only_with(
            &[("/lashwork", json!(version))],
            "/lashwork",
            "document.version",
        );
    }
    // Not stated it is 1.
    let bytes = without("/lashwork").to_string();
    assert!(lashwork_wire::report(bytes.as_bytes()).is_ok());
}

#[test]
fn faults_of_all_sections_come_back_together() {
    let bad = with(&[
        ("/lashwork", json!(2)),
        ("/titel", json!("x")),
        ("/engine/firing_order", json!(["1", "3", "4"])),
        ("/clearance/valves/screw", json!({ "seat": "cam_side" })),
        (
            "/clearance/specifications/0/intake/set_to",
            json!("0.50 mm"),
        ),
        ("/clearance/gauge/leaves/0", json!("-0.05 mm")),
        ("/clearance/metal/temperatures/0/is", json!("-300 C")),
        ("/clearance/readings/0/goes", json!(0.18)),
        ("/clearance/rule", json!("gess")),
    ]);
    let found = problems(bad.to_string().as_bytes());
    assert_eq!(
        places(&found),
        [
            ("/clearance/gauge/leaves", "feeler.leaf-not-positive"),
            (
                "/clearance/metal/temperatures/0/is",
                "quantity.out-of-range"
            ),
            ("/clearance/readings/0/goes", "document.wrong-type"),
            ("/clearance/rule", "document.unknown-value"),
            (
                "/clearance/specifications/0/intake",
                "tolerance.set-to-outside-set"
            ),
            ("/clearance/valves/screw", "adjust.thread"),
            ("/engine", "engine.order-missing"),
            ("/lashwork", "document.version"),
            ("/titel", "document.unknown-field"),
        ]
    );
}

#[test]
fn the_plain_answer_names_the_same_problems() {
    let bad = with(&[("/titel", json!("x")), ("/lashwork", json!(2))]);
    let text = lashwork_wire::job_sheet(bad.to_string().as_bytes())
        .err()
        .unwrap_or_default();
    assert!(text.contains("document.version at \"/lashwork\""), "{text}");
    assert!(
        text.contains("document.unknown-field at \"/titel\""),
        "{text}"
    );
}
