//! The air around in a document: by barometer, by height and thermometer, by the height alone.
#![allow(
    clippy::expect_used,
    reason = "a test that cannot read its document stops with the reason"
)]

use super::mixture_read::{refused_with, report, section};
use approx::assert_abs_diff_eq;
use lashwork::job::mixture::AirAroundReport;
use serde_json::{Value, json};

fn around(air: &Value) -> AirAroundReport {
    let report = report(&json!({"air": air}));
    section(&report).air.clone().expect("stated")
}

fn dense(air: &Value) -> f64 {
    let density = around(air).density.expect("known");
    density.kilograms_per_cubic_metre()
}

/// By the ideal gas apart from the kernel, 30 C and 101.325 kPa: dry 1.1644 kg/m3; saturated with 4.246 kPa of
/// vapour (steam tables) 0.378 of it less, 1.1460.
#[test]
fn humid_air_is_lighter_by_either_way() {
    for place in [
        json!({"altitude": "0 m", "temperature": "30 C"}),
        json!({"barometer": {"shows": "101.325 kPa", "set_to": "place"}, "temperature": "30 C"}),
    ] {
        let at = |humidity: &str| {
            let mut air = place.clone();
            air["humidity"] = json!(humidity);
            dense(&air)
        };
        assert_abs_diff_eq!(at("0 %"), 1.1644, epsilon = 0.001);
        assert_abs_diff_eq!(at("100 %"), 1.1460, epsilon = 0.001);
    }
}

/// By hand for dry air of 20 C and 101.325 kPa, 1.2041 kg/m3: 0.3 kPa are 0.296 % and a kelvin 0.341 %, together
/// 0.452 %, so 0.00544.
#[test]
fn barometer_and_thermometer_make_the_doubt() {
    let air = around(&json!({
        "barometer": {"shows": "101.325 kPa", "set_to": "place"}, "temperature": "20 C", "humidity": "0 %"
    }));
    assert_abs_diff_eq!(air.density_u, 0.00544, epsilon = 2e-5);
}

/// How humid it is says nothing without a temperature.
#[test]
fn a_humidity_beside_a_height_alone_is_refused() {
    let air = json!({"air": {"altitude": "500 m", "humidity": "50 %"}});
    refused_with("/mixture/air", "mixture.air-not-stated", &air);
}
