//! Each cylinder is compared with the others by where its own intake closes.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot read its document stops with the reason"
)]

use super::condition_read::{compression, section};
use super::ignition_four::{assumed, run};
use approx::{assert_abs_diff_eq, assert_relative_eq};
use lashwork::condition::compression::CompressionCause;
use lashwork::job::Report;
use lashwork_tests::refusals::example;
use serde_json::{Value, json};

/// What the gauge shows over the air, of an exponent in the middle of 1.20 to 1.24, for each kilopascal of air.
fn shown(ratio: f64, abdc: f64) -> f64 {
    let turned = (180.0 - abdc).to_radians();
    let (throw, rod) = (1.0, 3.5);
    let height = throw * turned.cos() + (rod * rod - (throw * turned.sin()).powi(2)).sqrt();
    let inside = 1.0 + (ratio - 1.0) * (throw + rod - height) / (2.0 * throw);
    inside.powf(1.22) - 1.0
}

/// Four whose intake valves were read, one of them tight and one loose; ramps of 0.015 mm a cam degree.
fn four(kpa: [f64; 4]) -> Value {
    let mut document = example("inline-four.json");
    document["clearance"]["valves"]["events"]["at"] = json!({"lash": "0.20 mm"});
    let leaves = [
        ("0.20 mm", "0.22 mm"),
        ("0.10 mm", "0.12 mm"),
        ("0.20 mm", "0.22 mm"),
        ("0.35 mm", "0.40 mm"),
    ];
    let readings = leaves.iter().enumerate().flat_map(|(i, (goes, refuses))| {
        let label = (i + 1).to_string();
        [
            json!({"cylinder": label, "valve": "intake", "goes": [goes], "refuses": [refuses]}),
            json!({"cylinder": label, "valve": "exhaust", "goes": ["0.30 mm"], "refuses": ["0.32 mm"]}),
        ]
    });
    document["clearance"]["readings"] = readings.collect();
    let ramp = json!({"ramp": {"height": "0.5 mm", "rise_per_cam_degree": "0.015 mm"}});
    let read = kpa
        .iter()
        .enumerate()
        .map(|(i, kpa)| json!({"cylinder": (i + 1).to_string(), "dry": format!("{kpa:.6} kPa")}));
    document["condition"] = json!({
        "compression_ratio": 8.5, "air": {"altitude": "0 m"},
        "events": {"intake": ramp, "exhaust": ramp},
        "compression": {"readings": read.collect::<Value>(), "exponent": {"from": 1.20, "to": 1.24}}
    });
    document
}

/// Where the intake of each cylinder closes, in degrees after bottom dead centre.
fn closings(report: &Report) -> Vec<f64> {
    let events = section(report).events.as_ref().expect("asked for");
    let of = events.cylinders.iter().map(|one| {
        let event = &one.now.events[1];
        let (from, to) = event.from.zip(event.to).expect("both ends");
        0.5 * (from.degrees() + to.degrees())
    });
    of.collect()
}

/// Polytropic law and the triangle of crank and rod (`p = p_air r^n`): what a sound engine with these clearances
/// shows. Each cylinder is then as it should be, though the gauge differs by more than a tenth.
#[test]
fn a_sound_engine_with_uneven_clearances_has_no_low_cylinder() {
    let closes = closings(&run(&four([1_000.0; 4])));
    let sound: Vec<f64> = closes
        .iter()
        .map(|abdc| 101.325 * shown(8.5, *abdc))
        .collect();
    let sound: [f64; 4] = sound.try_into().expect("four");
    assert!(sound[3] > 1.10 * sound[1], "{sound:?}");
    let report = run(&four(sound));
    let found = compression(&report);
    for (one, kpa) in found.cylinders.iter().zip(sound) {
        let expected = one.expected.expect("others are good").kilopascals();
        assert_relative_eq!(expected, kpa, epsilon = 1e-5);
        assert_abs_diff_eq!(one.share.expect("compared"), 1.0, epsilon = 1e-5);
        assert_eq!(one.causes[0].cause, CompressionCause::Sound);
    }
    assert_eq!(found.standard.len(), 4);
    assert!(
        found.cylinders[1]
            .text
            .contains("by the others, for its own clearances, "),
        "{}",
        found.cylinders[1].text
    );
    assert!(assumed(&report, "condition.compression-own-closings"));
    // Where all close alike there is nothing to tell.
    let mut alike = four([1_000.0; 4]);
    for i in [2, 6] {
        alike["clearance"]["readings"][i]["goes"] = json!(["0.20 mm"]);
        alike["clearance"]["readings"][i]["refuses"] = json!(["0.22 mm"]);
    }
    let text = compression(&run(&alike)).cylinders[1].text.clone();
    assert!(!text.contains("own clearances"), "{text}");
    // The wide one alone would hide that the tight one is low for another reason as well.
    let mut burnt = sound;
    burnt[3] *= 0.80;
    let report = run(&four(burnt));
    let fourth = &compression(&report).cylinders[3];
    assert_abs_diff_eq!(fourth.share.expect("compared"), 0.80, epsilon = 1e-5);
    assert!(fourth.causes[0].cause != CompressionCause::Sound);
}

/// Without the ratio nothing says how far; that is told, and cylinders are compared as they are shown.
#[test]
fn without_a_ratio_they_are_compared_as_shown() {
    let mut document = four([1_000.0, 995.0, 1_005.0, 1_010.0]);
    let fields = document["condition"].as_object_mut().expect("an object");
    fields.remove("compression_ratio");
    let report = run(&document);
    assert!(assumed(&report, "condition.compression-alike-closings"));
    assert!(!assumed(&report, "condition.compression-own-closings"));
    let expected = compression(&report).cylinders[0].expected.expect("others");
    assert_abs_diff_eq!(
        expected.kilopascals(),
        (995.0 + 1_005.0 + 1_010.0) / 3.0,
        epsilon = 1e-9
    );
    let text = &compression(&report).cylinders[0].text;
    assert!(!text.contains("own clearances"), "{text}");
}

/// A cylinder of which one valve was not read closes on the mean of the others.
#[test]
fn a_cylinder_that_was_not_read_closes_on_the_mean() {
    let mut document = four([1_000.0; 4]);
    let readings = document["clearance"]["readings"].as_array_mut();
    readings.expect("a list").truncate(6);
    let report = run(&document);
    let closes = closings(&report);
    assert_eq!(closes.len(), 3);
    let mean = closes.iter().sum::<f64>() / 3.0;
    let factor = |abdc: f64| shown(8.5, abdc) / shown(8.5, mean);
    let others = closes.iter().map(|abdc| 1_000.0 / factor(*abdc));
    let others: f64 = others.sum::<f64>() / 3.0;
    let fourth = &compression(&report).cylinders[3];
    let expected = fourth.expected.expect("others are good").kilopascals();
    assert_relative_eq!(expected, others, epsilon = 1e-6);
    assert!(!fourth.text.contains("own clearances"), "{}", fourth.text);
}

/// What the lash leaves open of a closing widens what is expected of its cylinder.
#[test]
fn a_lash_that_is_less_certain_widens_what_is_expected() {
    let wide = |refuses: &str| {
        let mut document = four([1_000.0; 4]);
        document["clearance"]["readings"][0]["goes"] = json!(["0.20 mm"]);
        document["clearance"]["readings"][0]["refuses"] = json!([refuses]);
        let report = run(&document);
        compression(&report).cylinders[0].expected_u.expect("known")
    };
    assert!(wide("0.30 mm") > wide("0.22 mm") + 1.0);
}

/// Clearances that do not stand correct nothing.
#[test]
fn clearances_that_were_taken_back_correct_nothing() {
    let mut document = four([1_000.0; 4]);
    document["condition"]["head"] = json!({"bolts_are": "tightened_since"});
    let report = run(&document);
    assert!(!assumed(&report, "condition.compression-own-closings"));
    let expected = compression(&report).cylinders[1].expected.expect("others");
    assert_abs_diff_eq!(expected.kilopascals(), 1_000.0, epsilon = 1e-9);
}
