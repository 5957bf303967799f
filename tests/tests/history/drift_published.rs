//! Prediction intervals against printed and certified examples, and against exact rows.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test stops at the first thing it does not expect"
)]

use super::make::{Plain, exact, fitted, record, series, service, set};
use lashwork::history::{DriftChoice, Figure, Visit};

fn close(what: &str, got: f64, wanted: f64, within: f64) {
    assert!(
        (got - wanted).abs() <= within,
        "{what}: {got} is not {wanted} within {within}"
    );
}

fn found(x: &[f64], y: &[f64], at: f64) -> Figure {
    let record = series::<Plain>(x, y);
    let drift = fitted(&record, &DriftChoice::default());
    drift.predicted(0, at).unwrap().unwrap().found
}

/// The rows of wear of one lash that never was set; ordinary least squares and Student's t (statsmodels and
/// scipy agree to all digits shown).
#[test]
fn wear_of_twelve_readings() {
    let x = [
        0.0, 6.0, 12.0, 18.5, 25.0, 31.0, 38.0, 44.5, 50.0, 57.0, 63.5, 70.0,
    ];
    let y = [
        0.152, 0.150, 0.147, 0.146, 0.141, 0.140, 0.155, 0.133, 0.131, 0.128, 0.124, 0.122,
    ];
    for (at, value, low, high) in [
        (80.0, 0.119_688_979_94, 0.104_246_035_20, 0.135_131_924_68),
        (100.0, 0.111_140_504_61, 0.093_774_318_48, 0.128_506_690_74),
    ] {
        let got = found(&x, &y, at);
        close("middle", got.value, value, 1e-9);
        close("low", got.low, low, 2e-6);
        close("high", got.high, high, 2e-6);
    }
    let drift = fitted(&series::<Plain>(&x, &y), &DriftChoice::default());
    let rate = drift.rate();
    close("rate", rate.value, -0.000_427_423_766_26, 1e-11);
    let half = 2.228_138_851_986 * 7.575_043_731_8e-5;
    close("rate low", rate.low, rate.value - half, 1e-8);
}

/// Two stretches with a setting between (analysis of covariance, statsmodels): the line through all readings
/// would have half the slope.
#[test]
fn a_setting_begins_a_new_level() {
    let mut made = record::<Plain>(1);
    let (first, second) = ([0.300, 0.281, 0.262], [0.300, 0.283, 0.259, 0.242]);
    made.push(service(0.0, vec![Visit::found(exact(first[0]))]))
        .unwrap();
    made.push(service(5.0, vec![Visit::found(exact(first[1]))]))
        .unwrap();
    made.push(service(10.0, vec![set(exact(first[2]), exact(second[0]))]))
        .unwrap();
    for (at, y) in [15.0, 20.0, 25.0].into_iter().zip(&second[1..]) {
        made.push(service(at, vec![Visit::found(exact(*y))]))
            .unwrap();
    }
    let drift = fitted(&made, &DriftChoice::default());
    close("slope", drift.rate().value, -0.003_914_29, 5e-9);
    let next = drift.predicted(0, 35.0).unwrap().unwrap().found;
    close("middle", next.value, 0.2025, 1e-8);
    close("low", next.low, 0.194_630, 2e-6);
    close("high", next.high, 0.210_370, 2e-6);
}
