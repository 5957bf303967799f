//! What cannot be in records and in condition: each refusal says what is wrong, where, what was expected, and the way
//! out.
#![allow(
    clippy::panic,
    reason = "a test that cannot read its document stops with the reason"
)]

use super::condition_read::{document, dry};
use lashwork_tests::refusals::{example, only, with};
use serde_json::{Value, json};

/// A wrong document; where, with which code; words of what is wrong and expected, and of the way out.
struct Row {
    document: Value,
    place: &'static str,
    code: &'static str,
    message: &'static [&'static str],
    hint: &'static str,
}

fn history(edits: &[(&str, Value)]) -> Value {
    with(example("inline-four-with-history.json"), edits)
}

fn leak(tester: &Value, shows: &str, by: &str) -> Value {
    document(&json!({
        "valves": "settled", "bore": "90 mm",
        "leak": {
            "tester": tester, "by": by, "rule": {"of_bore": true}, "unit": "psi",
            "readings": [{"cylinder": "1", "shows": shows, "held": true}]
        }
    }))
}

fn ratio(ratio: f64) -> Value {
    document(
        &json!({"compression_ratio": ratio, "compression": {"readings": dry(&[150.0, 151.0])}}),
    )
}

#[test]
fn every_refusal_says_what_was_expected_and_the_way_out() {
    let usual = || json!({"supply": "80 psi", "orifice": "0.040 in"});
    let two = || {
        let mut made = leak(&usual(), "70 psi", "face");
        let other = json!({"supply": "80 psi", "orifice": "0.060 in"});
        let second = json!({"cylinder": "2", "shows": "75 psi", "held": true, "tester": other});
        made["condition"]["leak"]["readings"]
            .as_array_mut()
            .unwrap_or_else(|| panic!("a list"))
            .push(second);
        made
    };
    let rows = [
        Row {
            document: history(&[("/history/services/2/distance", json!("45000 km"))]),
            place: "/history/services/2",
            code: "history.time-backwards",
            message: &["service 3 is at 45000 km", "before the 45300 km"],
            hint: "after a change of meter add what the old one showed",
        },
        Row {
            document: history(&[("/history/services/2/date", json!("2017-01-01"))]),
            place: "/history/services/2",
            code: "history.time-backwards",
            message: &["service 3"],
            hint: "check day and meter",
        },
        Row {
            document: history(&[
                (
                    "/history/services/2/lash/1/left",
                    json!({"lash": "0.30 mm"}),
                ),
                (
                    "/history/services/2/lash/1/left_at",
                    json!({"distance": "49000 km"}),
                ),
            ]),
            place: "/history/services/2/lash/1/left_at",
            code: "history.read-before-reset",
            message: &["cylinder 1 exhaust", "49000 km", "the setting at 49100 km"],
            hint: "give it as found, or correct when it was read",
        },
        Row {
            document: history(&[("/history/services/2/engine", json!("the barn engine"))]),
            place: "/history/services/2/engine",
            code: "history.other-engine",
            message: &["service 3", "the barn engine", "the tourer's engine"],
            hint: "keep one record for each engine",
        },
        Row {
            document: leak(&usual(), "81 psi", "area"),
            place: "/condition/leak/readings/0/shows",
            code: "condition.leak-over-supply",
            message: &["81 psi", "80 psi"],
            hint: "gauge",
        },
        Row {
            document: leak(
                &json!({"supply": "100 psi", "orifice": "0.040 in"}),
                "90 psi",
                "face",
            ),
            place: "/condition/leak/rule",
            code: "condition.leak-other-supply",
            message: &["100 psi", "80 psi"],
            hint: "area",
        },
        Row {
            document: two(),
            place: "/condition/leak/readings/1",
            code: "condition.leak-two-testers",
            message: &["1", "2"],
            hint: "area",
        },
        Row {
            document: ratio(2.9),
            place: "/condition/compression_ratio",
            code: "engine.compression-ratio",
            message: &["2.9", "3", "25"],
            hint: "8.5 for 8.5 to 1",
        },
        Row {
            document: ratio(25.1),
            place: "/condition/compression_ratio",
            code: "engine.compression-ratio",
            message: &["25.1", "3", "25"],
            hint: "8.5 for 8.5 to 1",
        },
    ];
    for row in rows {
        let problem = only(row.document.to_string().as_bytes(), row.place, row.code);
        for words in row.message {
            assert!(problem.message.contains(words), "{words:?}: {problem:?}");
        }
        assert!(
            problem.hint.contains(row.hint),
            "{:?}: {problem:?}",
            row.hint
        );
    }
}
