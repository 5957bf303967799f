//! Coil, condenser and plugs in a document: what is judged, how strong the spark is, what to do.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot read its document stops with the reason"
)]

use super::ignition_four::{assumed, four};
use approx::assert_abs_diff_eq;
use lashwork::job::ignition::ElectricsReport;
use lashwork::job::{Report, Standing, WorkAdvice, WorkStep};
use lashwork::tolerance::Verdict;
use serde_json::{Value, json};

/// An invented four: a hot coil with its ballast, a condenser, a coil at speed, plugs.
fn electrics() -> Value {
    json!({
        "resistors": [
            {"name": "coil primary", "of": "copper", "reads": "1.70 ohm", "uncertainty": "0.01 ohm",
             "at": "80 C", "within": "5 K", "limits": {"from": "1.3 ohm", "to": "1.5 ohm"},
             "primary": true, "runs_at": "80 C"},
            {"name": "ballast", "of": "resistance_wire", "reads": "1.30 ohm", "uncertainty": "0.02 ohm",
             "limits": {"from": "1.2 ohm", "to": "1.5 ohm"}, "primary": true, "runs_at": "100 C"}
        ],
        "condenser": {"reads": "0.22 uF", "uncertainty": "0.005 uF",
            "limits": {"from": "0.18 uF", "to": "0.25 uF"}, "build_up": "on_arm", "earth": "negative"},
        "coil": {"supply": "12 V", "supply_uncertainty": "0.2 V", "inductance": "10 mH",
            "inductance_uncertainty": "0.5 mH", "dwell": "60 deg",
            "speeds": ["1000 rpm", "3000 rpm", "6000 rpm"], "weak_below": {"energy": "30 mJ"}},
        "plug": {"gap": "0.65 mm", "uncertainty": "0.02 mm", "limits": {"from": "0.6 mm", "to": "0.7 mm"},
            "compression": {"ratio": 8.0, "spark": "10 deg BTDC", "start_at": "50 C"},
            "available": "25 kV", "available_uncertainty": "1 kV"}
    })
}

fn document(electrics: &Value) -> Value {
    four(&json!({
        "valves": "settled",
        "distributor": {"lobes": 4, "cam": "half_crank"},
        "electrics": electrics
    }))
}

fn run(electrics: &Value) -> Report {
    super::ignition_four::run(&document(electrics))
}

fn found(report: &Report) -> &ElectricsReport {
    let section = report.ignition.as_ref().expect("asked for");
    section.electrics.as_ref().expect("asked for")
}

fn with(pointer: &str, value: Value) -> Value {
    let mut all = electrics();
    *all.pointer_mut(pointer).expect("the place") = value;
    all
}

#[test]
fn a_hot_winding_is_judged_at_the_books_temperature_and_reckoned_at_its_own() {
    let report = run(&electrics());
    let found = found(&report);
    let coil = &found.resistors[0];
    // 1.70 ohm at 80 C are 254.45 / 314.45 of it at 20 C; as read it would be too high.
    assert_abs_diff_eq!(coil.resistance.ohms(), 1.3756, epsilon = 5e-5);
    assert_eq!(
        coil.judged.as_ref().expect("limits").verdict,
        Verdict::InBand
    );
    assert!(coil.text.contains("read at 80 C, taken to 20 C"));
    // The ballast stays as it was read, and that is said.
    assert_abs_diff_eq!(found.resistors[1].resistance.ohms(), 1.3);
    assert!(assumed(&report, "ignition.not-corrected"));
    // Both together, hot: 3.0 ohm. The row of 12 V, 3 ohm, 10 mH: 3.4587 A and 59.81 mJ at 3000 rpm.
    let charge = &found.charges[1];
    assert_abs_diff_eq!(charge.current.amperes(), 3.4587, epsilon = 5e-5);
    assert_abs_diff_eq!(charge.energy.millijoules(), 59.81, epsilon = 5e-3);
    assert_abs_diff_eq!(charge.closed.milliseconds(), 6.667, epsilon = 5e-4);
    assert!(charge.current_u > 0.0 && charge.energy_u > 0.0);
    let weak = found.weak.as_ref().expect("asked for");
    assert_abs_diff_eq!(weak.speed.rpm(), 6331.0, epsilon = 1.0);
    assert!(assumed(&report, "ignition.inductance-constant"));
}

#[test]
fn what_is_well_is_settled_and_needs_no_advice() {
    let report = run(&electrics());
    let found = found(&report);
    assert!(found.advice.is_empty(), "{:?}", found.advice);
    let plug = found.plug.as_ref().expect("asked for");
    assert!(plug.enough.expect("available") > 0.95);
    assert!(plug.set_to.is_none());
    let condenser = found.condenser.as_ref().expect("asked for");
    assert_eq!(
        condenser.judged.as_ref().expect("limits").verdict,
        Verdict::InBand
    );
    assert!(
        condenser
            .contacts
            .as_ref()
            .expect("a peak")
            .contains("too little capacity")
    );
    let section = report.ignition.as_ref().expect("asked for");
    let step = section.steps.iter().find(|s| s.step == WorkStep::Electrics);
    let step = step.expect("told");
    assert_eq!(
        (step.standing, step.text.as_str()),
        (Standing::Settled, "4 of 4 found in band")
    );
    let sheet = report.sheet();
    for words in [
        "coil primary: 1.38 ohm",
        "6330 rpm",
        "by the law of Paschen",
    ] {
        let sheet: Vec<&str> = sheet.split_whitespace().collect();
        assert!(sheet.join(" ").contains(words), "{words}");
    }
}

#[test]
fn a_tired_coil_and_a_wide_plug_have_causes_and_an_amount() {
    let mut all = with("/plug/available", json!("9 kV"));
    all["plug"]["gap"] = json!("1.0 mm");
    let report = run(&all);
    let found = found(&report);
    let plug = found.plug.as_ref().expect("asked for");
    assert!(plug.enough.expect("available") < 0.5);
    let set_to = plug.set_to.expect("out of band");
    assert!(set_to.mm() > 0.6 && set_to.mm() < 0.65);
    let sets = |one: &WorkAdvice| matches!(one, WorkAdvice::Set { .. });
    assert!(found.advice.iter().any(sets));
    let WorkAdvice::FindCause { causes, .. } = found.advice.last().expect("some") else {
        panic!("{:?}", found.advice);
    };
    assert!(causes[0].contains("plug gap"));
}

#[test]
fn a_condenser_or_a_winding_out_of_range_has_its_cause() {
    let report = run(&with("/condenser/reads", json!("0.12 uF")));
    let WorkAdvice::FindCause { text, .. } = &found(&report).advice[0] else {
        panic!("a cause");
    };
    assert_eq!(text, "condenser: too small");
    let report = run(&with("/resistors/0/reads", json!("2.4 ohm")));
    let WorkAdvice::FindCause { text, causes } = &found(&report).advice[0] else {
        panic!("a cause");
    };
    assert_eq!(text, "coil primary: too high");
    assert!(causes[0].contains("connections"));
}

#[test]
fn what_cannot_be_is_refused_where_it_stands() {
    for (pointer, value, code, place) in [
        (
            "/resistors/0/at",
            json!("400 C"),
            "ignition.conductor-temperature",
            "/resistors/0",
        ),
        (
            "/resistors/0/reads",
            json!("0 ohm"),
            "quantity.out-of-range",
            "/resistors/0/reads",
        ),
        (
            "/coil/dwell",
            json!("95 deg"),
            "ignition.dwell-beyond-pitch",
            "/coil",
        ),
        ("/coil/supply", json!("0 V"), "ignition.no-supply", "/coil"),
        (
            "/coil/weak_below",
            json!({"share_of_energy": 1.2}),
            "ignition.share",
            "/coil",
        ),
        (
            "/coil/weak_below",
            json!({}),
            "ignition.weak-below",
            "/coil/weak_below",
        ),
        (
            "/coil/weak_below",
            json!({"energy": "90 mJ"}),
            "ignition.never-reached",
            "/coil",
        ),
        (
            "/plug/compression/ratio",
            json!(80.0),
            "ignition.compression-ratio",
            "/plug",
        ),
        (
            "/plug/available",
            json!("25 V"),
            "ignition.voltage-too-low",
            "/plug",
        ),
        (
            "/plug/available_uncertainty",
            Value::Null,
            "document.missing-field",
            "/plug",
        ),
        (
            "/condenser/limits",
            json!({}),
            "tolerance.empty-band",
            "/condenser/limits",
        ),
    ] {
        let all = with(pointer, value);
        let problems = lashwork_wire::report(document(&all).to_string().as_bytes());
        let problems = problems.expect_err(pointer);
        let first = (problems[0].code.as_str(), problems[0].place.clone());
        assert_eq!(
            first,
            (code, format!("/ignition/electrics{place}")),
            "{pointer}"
        );
    }
}
