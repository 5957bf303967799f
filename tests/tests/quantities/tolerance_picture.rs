//! The histogram of an estimate against a published table and the probabilities it must add up to.

#![allow(clippy::unwrap_used, reason = "a wrong set-up should stop the test")]

use approx::abs_diff_eq;
use lashwork::Refusal;
use lashwork::quantity::{Lash, LengthUnit, Marked, Nominal};
use lashwork::tolerance::{Estimate, Limits, Uncertainty};
use lashwork_tests::values::u;
use proptest::prelude::*;

fn lash(mm: f64) -> Lash {
    Lash::from_mm(mm).unwrap()
}

fn mark(um: i64) -> Marked {
    let exact = Nominal::from_nanometres(um * 1000).unwrap();
    Marked::new(exact, LengthUnit::Millimetre, 3)
}

/// NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1: area from 0 to 1, 2 and 3 standard
/// deviations 0.34134, 0.47725, 0.49865.
#[test]
fn normal_bins_of_one_standard_deviation() {
    let estimate = Estimate::between(lash(0.20), lash(0.20), u(0.01)).unwrap();
    let shares = estimate.shares(lash(0.20), lash(0.23), 3).unwrap().unwrap();
    let want = [0.34134, 0.47725 - 0.34134, 0.49865 - 0.47725];
    assert_eq!(shares.len(), want.len());
    for (got, want) in shares.iter().zip(want) {
        // Five printed figures, twice where two of them are subtracted.
        assert!(abs_diff_eq!(*got, want, epsilon = 1e-5), "{got} {want}");
    }
}

#[test]
fn what_makes_no_picture_is_refused() {
    let estimate = Estimate::between(lash(0.1), lash(0.2), Uncertainty::ZERO).unwrap();
    for (from, to, bins) in [
        (0.0, 0.3, 0),
        (0.0, 0.3, 4097),
        (0.3, 0.3, 8),
        (0.3, 0.0, 8),
    ] {
        let refused = estimate.shares(lash(from), lash(to), bins).unwrap_err();
        assert_eq!(refused.code(), "tolerance.bins");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(500))]

    #[test]
    fn bins_add_up_to_the_band(
        low in 0.0..0.4_f64, width in 0.0..0.2_f64, sigma in 0.0..0.05_f64,
        from in 0_i64..300, span in 1_i64..300, bins in 1_usize..200,
    ) {
        let estimate = Estimate::between(lash(low), lash(low + width), u(sigma)).unwrap();
        let limits = Limits::between(mark(from), mark(from + span)).unwrap();
        let band = estimate.probabilities(&limits).in_band.least;
        let (start, end) = (lash(mark(from).mm()), lash(mark(from + span).mm()));
        let sum: f64 = estimate.shares(start, end, bins).unwrap().unwrap().iter().sum();
        // A reading without any doubt that lies on an edge counts in both bins that touch it.
        prop_assume!(width > 0.0 || sigma > 0.0);
        prop_assert!(abs_diff_eq!(sum, band, epsilon = 1e-9), "{sum} {band}");
    }
}
