//! Running sums and lives of parts against printed tables.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use lashwork::Refusal;
use lashwork::statistics::{cusum, weibull};

fn close(what: &str, got: f64, wanted: f64, within: f64) {
    assert!(
        (got - wanted).abs() <= within,
        "{what}: {got} is not {wanted} within {within}"
    );
}

/// NIST/SEMATECH e-Handbook 6.3.2.3: target 325, k 0.3175, h 4.1959; the first signal is in group 14.
#[test]
fn running_sums_of_the_handbook() {
    let x = [
        324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600,
        324.625, 325.150, 328.325, 327.250, 327.825, 328.500, 326.675, 327.775, 326.875, 328.350,
    ];
    let above = [
        0.0, 0.0, 0.0, 0.0, 0.0325, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 3.0075, 4.94, 7.4475, 10.63,
        11.9875, 14.445, 16.0025, 19.035,
    ];
    let below = [
        0.0, 0.0075, 0.0, 0.3325, 0.0, 0.0, 0.5575, 0.715, 0.1725, 0.255, 0.3125,
    ];
    let sums = cusum(&x, 325.0, 0.3175).unwrap();
    // The table is printed from rounded steps: its last sum is 0.04 under the exact 19.075.
    for (at, (wanted, (got, _))) in above.iter().zip(&sums).enumerate() {
        close(&format!("above, group {}", at + 1), *got, *wanted, 0.041);
    }
    for (at, (wanted, (_, got))) in below.iter().zip(&sums).enumerate() {
        close(&format!("below, group {}", at + 1), *got, *wanted, 1e-9);
    }
    assert!(sums.iter().skip(11).all(|(_, below)| *below <= 0.0));
    let first = sums
        .iter()
        .position(|(above, below)| above.max(*below) > 4.1959);
    assert_eq!(first, Some(13));
    assert_eq!(
        cusum(&[f64::NAN], 0.0, 0.5).unwrap_err().code(),
        "statistics.points"
    );
}

/// Six failures of reliawiki.com's example: median ranks as printed, and the shape from its printed sums, 1.4301;
/// the other way of regression by scipy; the likeliest by mpmath.
#[test]
fn lives_of_six_parts() {
    let found = weibull(&[93.0, 34.0, 16.0, 120.0, 53.0, 75.0]).unwrap();
    close("shape by rank", found.by_rank.shape, 1.4301, 0.001);
    close("shape by life", found.by_life.shape, 1.442_875, 2e-6);
    close("scale by life", found.by_life.scale, 76.0821, 1e-4);
    close("B10 by life", found.by_life.life(0.1), 15.993, 1e-3);
    close("likeliest shape", found.likeliest.shape, 1.932_677_9, 2e-7);
    close(
        "likeliest scale",
        found.likeliest.scale,
        73.526_074_188,
        1e-8,
    );
    close("likeliest B10", found.likeliest.life(0.1), 22.949, 1e-3);
    assert_eq!(
        weibull(&[1.0]).unwrap_err().code(),
        "statistics.too-few-points"
    );
    assert_eq!(
        weibull(&[1.0, 0.0]).unwrap_err().code(),
        "statistics.points"
    );
    assert_eq!(
        weibull(&[2.0, 2.0]).unwrap_err().code(),
        "statistics.one-place"
    );
}
