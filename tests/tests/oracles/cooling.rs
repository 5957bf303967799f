//! Cooling fitted to temperatures and times against scipy's `curve_fit`
//! (data: `tests/oracles/cooling.json`).

#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a case that is not as written is a broken test"
)]

use lashwork::quantity::Elapsed;
use lashwork::thermal::{CoolingFit, CoolingReading};
use lashwork_tests::values::{celsius, kelvin};
use lashwork_tests::{Differences, list, number, numbers, oracle, text};
use serde_json::Value;

/// Levenberg and Marquardt stop where the sum of squares no longer falls: half the digits of f64.
const SHARE: f64 = 2e-7;

fn fit(case: &Value) -> CoolingFit {
    let readings: Vec<CoolingReading> = numbers(case, "minutes")
        .iter()
        .zip(numbers(case, "celsius"))
        .map(|(minutes, c)| CoolingReading {
            after: Elapsed::from_minutes(*minutes).unwrap(),
            temperature: celsius(c),
        })
        .collect();
    let air = case
        .get("surroundings_celsius")
        .and_then(Value::as_str)
        .map(|text| celsius(text.parse().unwrap()));
    CoolingFit::new(&readings, air, kelvin(number(case, "thermometer_kelvin"))).unwrap()
}

#[test]
fn surroundings_start_and_rate_with_covariance() {
    let mut differences = Differences::default();
    for case in oracle("cooling") {
        let place = |what: &str| format!("{} {what}", text(&case, "id"));
        let fit = fit(&case);
        let cooling = fit.cooling();
        let found = numbers(&case, "fit");
        let air = cooling.surroundings.celsius();
        let above = (cooling.start - cooling.surroundings).kelvin();
        for (what, got, want) in [
            ("surroundings", air, found[0]),
            ("above", above, found[1]),
            ("rate", cooling.per_minute, found[2]),
        ] {
            differences.compare(&place(what), got, want, 0.0, SHARE);
        }
        let rows = list(&case, "covariance");
        for (i, (got, want)) in fit.covariance().iter().zip(rows).enumerate() {
            for (j, (got, want)) in got.iter().zip(want.as_array().unwrap()).enumerate() {
                let want: f64 = want.as_str().unwrap().parse().unwrap();
                let sd = |k: usize| fit.covariance()[k][k].sqrt();
                differences.compare(
                    &place(&format!("covariance {i} {j}")),
                    *got,
                    want,
                    SHARE * sd(i) * sd(j),
                    10.0 * SHARE,
                );
            }
        }
        if let (Some(got), Some(want)) = (fit.scatter(), case["scatter"].as_str()) {
            let want: f64 = want.parse().unwrap();
            differences.compare(&place("scatter"), got, want, 1e-6, SHARE);
        }
    }
    differences.settle();
}

#[test]
fn time_to_a_temperature_with_its_uncertainty() {
    let mut differences = Differences::default();
    for case in oracle("cooling") {
        let target = celsius(number(&case, "target_celsius"));
        let (minutes, u) = fit(&case).minutes_until(target).unwrap();
        for (name, got) in [("until_minutes", minutes), ("until_u_minutes", u)] {
            let place = format!("{} {name}", text(&case, "id"));
            differences.compare(&place, got, number(&case, name), 0.0, 10.0 * SHARE);
        }
    }
    differences.settle();
}
