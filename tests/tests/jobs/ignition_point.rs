//! One ignition point by every tool, from document to sheet.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use super::ignition_four::run;
use lashwork::job::Report;
use serde_json::{Value, json};

/// An invented odd-fire twin of 54 mm stroke and 100 mm rod.
fn document(point: &Value) -> Value {
    json!({
        "title": "Invented odd-fire twin",
        "engine": {
            "cycle": "four_stroke",
            "cylinders": [{"label": "front"}, {"label": "rear"}],
            "firing_order": ["front", "rear"],
            "firing": "listed",
            "intervals": ["405 deg", "315 deg"],
            "crank": {"throw": "27 mm", "rod": "100 mm", "offset": "0 mm"},
            "rotation": {"sense": "clockwise", "seen_from": "free_end"},
            "numbering": "free_end",
            "pulley_diameter": "133.4 mm",
            "ignition": "battery"
        },
        "ignition": {"point": point}
    })
}

fn report(point: &Value) -> Report {
    run(&document(point))
}

#[test]
fn said_by_every_tool_the_surest_first() {
    let report = report(&json!({
        "at": "22 deg BTDC", "wheel": true, "dial": {"uncertainty": "0.02 mm", "plug_hole": "20 deg"},
        "book_travel": "2.48 mm"
    }));
    let section = report.ignition.as_ref().expect("asked for");
    let found = section.point.as_ref().expect("asked for");
    let ways: Vec<&str> = found.ways.iter().map(|way| way.text.as_str()).collect();
    assert_eq!(ways.len(), 4);
    // 2.479 mm of travel are 2.64 mm along a hole that leans 20 degrees; computed here.
    assert!(
        ways[0].starts_with("dial gauge: 2.64 mm from TDC (the piston is 2.48 mm down)"),
        "{ways:?}"
    );
    assert!(
        ways.iter()
            .any(|way| way.contains("25.6 mm ahead of the TDC mark")),
        "{ways:?}"
    );
    assert!(ways[3].contains("11.0 of its degrees"), "{ways:?}");
    assert_eq!(
        found.pair.as_deref(),
        Some("the book's angle and piston travel agree")
    );
    assert_eq!(found.flashes.len(), 2);
    assert!(
        found.flashes[1].place.contains("45 deg behind"),
        "{:?}",
        found.flashes
    );
    assert!(
        report
            .sheet()
            .contains("22.0 deg BTDC, the surest way first:")
    );
}

#[test]
fn wasted_sparks_flash_twice_and_slips_are_named() {
    let report = report(&json!({
        "at": "11 deg BTDC", "sparks": "once_a_turn", "book_travel": "2.48 mm"
    }));
    let section = report.ignition.as_ref().expect("asked for");
    let found = section.point.as_ref().expect("asked for");
    assert_eq!(
        found.flashes.iter().filter(|flash| flash.is_wasted).count(),
        2
    );
    assert!(
        found
            .pair
            .as_ref()
            .expect("held against")
            .contains("count at the distributor")
    );
}

#[test]
fn what_cannot_be_is_refused_in_place() {
    let refused = |point: Value| {
        let answer = lashwork_wire::report(document(&point).to_string().as_bytes());
        let first = answer.expect_err("refused").remove(0);
        (first.place, first.code)
    };
    let told = |place: &str, code: &str| (place.to_owned(), code.to_owned());
    assert_eq!(
        refused(json!({})),
        told("/ignition/point", "ignition.no-point")
    );
    let lean = json!({"at": "11 deg BTDC", "dial": {"plug_hole": "80 deg"}});
    assert_eq!(
        refused(lean),
        told("/ignition/point/dial", "ignition.plug-hole")
    );
    let third = json!({"at": "11 deg BTDC", "cylinder": "third"});
    assert_eq!(
        refused(third),
        told("/ignition/point/cylinder", "job.no-such-cylinder")
    );
}
