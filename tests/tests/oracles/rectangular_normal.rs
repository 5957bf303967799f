//! Probabilities of an interval reading with a normal part against 320-digit arithmetic
//! (data: `tests/oracles/rectangular_normal.json`).

use lashwork::quantity::{Lash, Marked};
use lashwork::tolerance::{Chance, Estimate, Limits, Uncertainty};
use lashwork_tests::{Differences, number, oracle, text};

/// A difference to a limit carries the rounding of 0.1 mm, 1e-17 mm. Against a normal part of 1e-6 mm
/// that is 1e-11 standard deviations, and a tail 30 of them out moves by 30 times that share.
const SHARE: f64 = 1e-9;
/// With numbers that have no rounding the fraction and the exponential are left, and the rounding of
/// the square of the depth.
fn exact_share(depth: f64) -> f64 {
    f64::EPSILON * (8.0 + depth * depth)
}
/// Below this an f64 loses digits before it becomes zero.
const NOTHING: f64 = 1e-300;

#[test]
fn tight_in_band_and_loose() {
    let mut differences = Differences::default();
    for case in oracle("rectangular_normal") {
        let lash = |key| Lash::from_mm(number(&case, key)).unwrap();
        let mark = |key| Marked::parse(&format!("{} mm", text(&case, key))).unwrap();
        let estimate = Estimate::between(
            lash("from_mm"),
            lash("to_mm"),
            Uncertainty::from_mm(number(&case, "normal_mm")).unwrap(),
        )
        .unwrap();
        let limits = Limits::between(mark("low_mm"), mark("high_mm")).unwrap();
        let found = estimate.probabilities(&limits);
        let mut compare = |name: &str, chance: Chance| {
            let place = format!("{} {name}", text(&case, "id"));
            let want = number(&case, name);
            differences.compare(&place, chance.least, want, NOTHING, SHARE);
            differences.compare(&place, chance.most, want, NOTHING, SHARE);
        };
        compare("below", found.below);
        compare("within", found.in_band);
        compare("above", found.above);
    }
    differences.settle();
}

#[test]
fn tails_of_numbers_without_rounding() {
    let mut seen = 0;
    for case in oracle("rectangular_normal") {
        let of = |key| number(&case, key);
        if text(&case, "normal_mm") != "0.25" {
            continue;
        }
        seen += 1;
        let lash = |key| Lash::from_mm(of(key)).unwrap();
        let u = Uncertainty::from_mm(of("normal_mm")).unwrap();
        let estimate = Estimate::between(lash("from_mm"), lash("to_mm"), u).unwrap();
        let lower = Marked::parse(&format!("{} mm", text(&case, "low_mm"))).unwrap();
        let got = estimate.probabilities(&Limits::at_least(lower)).below.least;
        let depth = (of("from_mm") - of("low_mm")) / of("normal_mm");
        let error = (got / of("below") - 1.0).abs();
        assert!(error <= exact_share(depth), "{depth}: {error:e}");
    }
    assert!(seen > 10, "only {seen} cases");
}
