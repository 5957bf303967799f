//! Questions of the ignition without an engine: published figures, and the places of what is refused.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first surprise"
)]

use approx::assert_abs_diff_eq;
use serde_json::{Value, json};

fn answer(check: &Value) -> Value {
    let answer = lashwork_wire::ignition_check(check.to_string().as_bytes());
    serde_json::from_slice(&answer).unwrap()
}

fn number(answer: &Value, pointer: &str) -> f64 {
    let found = answer.pointer(pointer);
    let found = found.and_then(Value::as_f64);
    assert!(found.is_some(), "nothing at {pointer}: {answer}");
    found.unwrap_or(f64::NAN)
}

/// Full scale 90, 60 and 45 degrees for 4, 6 and 8 cylinders: TM 9-4910-700-14-P, p. 11.
#[test]
fn half_of_the_time_is_half_of_each_full_scale() {
    for (lobes, full) in [(4, 90.0), (6, 60.0), (8, 45.0)] {
        let reading = json!({ "shows": "50 %", "uncertainty": "1 deg" });
        let found = answer(&json!({ "dwell": { "lobes": lobes, "reading": reading } }));
        let dwell = number(&found, "/ignition/dwell/reading/value/deg");
        assert_abs_diff_eq!(dwell, full / 2.0, epsilon = 1e-12);
        assert_abs_diff_eq!(number(&found, "/ignition/dwell/percent"), 50.0);
    }
}

/// From gap to dwell and back; away from the printed pair both are less certain.
#[test]
fn a_printed_pair_leads_there_and_back() {
    let pair = json!({ "gap": "0.40 mm", "dwell": "52 deg" });
    let gap = json!({ "is": "0.45 mm", "uncertainty": "0 mm" });
    let to = answer(&json!({ "dwell": { "lobes": 4, "pair": pair, "gap": gap } }));
    let dwell = number(&to, "/ignition/dwell/at_gap/value/deg");
    assert!(dwell < 52.0 && number(&to, "/ignition/dwell/at_gap/uncertainty") > 0.5 / 3_f64.sqrt());
    let reading = json!({ "shows": { "deg": dwell }, "uncertainty": "0 deg" });
    let back = answer(&json!({ "dwell": { "lobes": 4, "pair": pair, "reading": reading } }));
    assert_abs_diff_eq!(
        number(&back, "/ignition/dwell/gap/value/mm"),
        0.45,
        epsilon = 1e-12
    );
}

/// Every question is answered by itself: what one refuses does not hide what another does.
#[test]
fn what_is_refused_stands_at_its_place() {
    let reading = json!({ "shows": "50 deg", "uncertainty": "1 deg" });
    let strobe = json!({ "read": "20 deg BTDC", "uncertainty": "0.5 deg", "speed": "1500 rpm",
        "speed_uncertainty": "20 rpm", "vacuum_hose": "plugged", "lamp_delay_us": 0 });
    let limits = json!({ "from": "8 deg BTDC", "to": "12 deg BTDC" });
    let table = json!({ "distributor": [{ "speed": "500 rpm", "least": "0 deg", "most": "1 deg" }], "ends": true });
    let cases = [
        (
            json!({ "dwell": { "lobes": 0 } }),
            "/dwell/lobes",
            "ignition.lobes",
        ),
        (
            json!({ "dwell": { "lobes": 8, "reading": reading } }),
            "/dwell/reading",
            "ignition.dwell-beyond-pitch",
        ),
        (
            json!({ "dwell": { "lobes": 4, "pair": { "gap": "1.2 mm", "dwell": "52 deg" } } }),
            "/dwell/pair",
            "ignition.gap-unusual",
        ),
        (json!({ "point": {} }), "/point", "ignition.one-point"),
        (
            json!({ "point": { "at": "10 deg BTDC", "crank_turns": 0 } }),
            "/point/crank_turns",
            "ignition.drive",
        ),
        (
            json!({ "advance": { "limits": limits, "reading": strobe } }),
            "/advance/reading",
            "ignition.no-curve",
        ),
        (
            json!({ "advance": { "centrifugal": table, "speed": "900 rpm" } }),
            "/advance/crank_turns",
            "document.missing-field",
        ),
        (json!({ "sparks": {} }), "/sparks", "document.unknown-field"),
        (json!({}), "", "document.missing-field"),
    ];
    let mut wrong = Vec::new();
    for (check, place, code) in cases {
        let got = answer(&check);
        let problems = got["problems"].as_array().cloned().unwrap_or_default();
        let told = problems.iter().map(|one| (&one["place"], &one["code"]));
        let told: Vec<_> = told.collect();
        if told != [(&json!(place), &json!(code))] {
            wrong.push(format!("{check}\n  expected {place} {code}, got {got}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    let both = json!({ "dwell": { "lobes": 0 }, "point": {} });
    assert_eq!(answer(&both)["problems"].as_array().map(Vec::len), Some(2));
}
