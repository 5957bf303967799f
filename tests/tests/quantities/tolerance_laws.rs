//! Laws that hold for any estimate and any band.

#![allow(clippy::unwrap_used, reason = "a wrong set-up should stop the test")]

use approx::abs_diff_eq;
use lashwork::quantity::{Lash, LashChange, LengthUnit, Marked, Nominal};
use lashwork::statistics::normal_cdf;
use lashwork::tolerance::{DecisionRule, Estimate, HasLimits, Limits, Uncertainty, Verdict, judge};
use lashwork_tests::values::u;
use proptest::prelude::*;

fn lash(mm: f64) -> Lash {
    Lash::from_mm(mm).unwrap()
}

fn band(low_um: i64, width_um: i64) -> Limits<Lash> {
    let mark = |um: i64| {
        let exact = Nominal::from_nanometres(um * 1000).unwrap();
        Marked::new(exact, LengthUnit::Millimetre, 3)
    };
    Limits::between(mark(low_um), mark(low_um + width_um)).unwrap()
}

/// Sizes over many orders, with none and very small among them.
fn spread() -> impl Strategy<Value = f64> {
    prop_oneof![
        Just(0.0),
        (-300.0..-10.0).prop_map(|e: f64| 10_f64.powf(e)),
        (-9.0..0.5).prop_map(|e: f64| 10_f64.powf(e)),
    ]
}

fn estimate() -> impl Strategy<Value = Estimate<Lash>> {
    (-0.5..1.5, spread(), spread()).prop_map(|(low, width, sigma)| {
        Estimate::between(lash(low), lash(low + width), u(sigma)).unwrap()
    })
}

fn limits() -> impl Strategy<Value = Limits<Lash>> {
    (0_i64..500, 0_i64..300).prop_map(|(low, width)| band(low, width))
}

/// The chance to lie below `t` by the midpoint rule over the rectangle: 4000 normals side by side.
fn brute_below(low: f64, high: f64, sigma: f64, t: f64) -> f64 {
    const PARTS: u32 = 4000;
    let step = (high - low) / f64::from(PARTS);
    let sum: f64 = (0..PARTS)
        .map(|i| normal_cdf((t - (low + (f64::from(i) + 0.5) * step)) / sigma))
        .sum();
    sum / f64::from(PARTS)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn probabilities_sum_to_one(estimate in estimate(), limits in limits()) {
        let p = estimate.probabilities(&limits);
        for chance in [p.below, p.in_band, p.above] {
            prop_assert!((0.0..=1.0).contains(&chance.least), "{chance:?}");
            prop_assert!(chance.least >= chance.most && chance.most >= chance.least);
        }
        let sum = p.below.least + p.in_band.least + p.above.least;
        prop_assert!(abs_diff_eq!(sum, 1.0, epsilon = 1e-9), "{p:?}");
    }

    #[test]
    fn more_lash_is_less_tight_and_more_loose(
        estimate in estimate(), limits in limits(), more in 0.0..0.5,
    ) {
        let opened = estimate.shifted(LashChange::from_mm(more).unwrap(), Uncertainty::ZERO);
        let (before, after) = (estimate.probabilities(&limits), opened.probabilities(&limits));
        // Slack for the rounding of the shifted ends.
        prop_assert!(after.below.least <= before.below.least * (1.0 + 1e-9) + 1e-300);
        prop_assert!(after.above.least >= before.above.least * (1.0 - 1e-9));
    }

    #[test]
    fn sharp_rectangle_is_a_ratio_of_lengths(
        low in 0.0..0.4_f64, width in 0.01..0.3_f64, limits in limits(),
    ) {
        let high = low + width;
        let (tl, tu) = (limits.lower().unwrap().mm(), limits.upper().unwrap().mm());
        let share = |a: f64, b: f64| ((high.min(b) - low.max(a)) / (high - low)).max(0.0);
        for sigma in [0.0, 1e-300, 1e-14] {
            let p = Estimate::between(lash(low), lash(high), u(sigma)).unwrap()
                .probabilities(&limits);
            prop_assert!(abs_diff_eq!(p.below.least, share(f64::MIN, tl), epsilon = 1e-11));
            prop_assert!(abs_diff_eq!(p.in_band.least, share(tl, tu), epsilon = 1e-11));
            prop_assert!(abs_diff_eq!(p.above.least, share(tu, f64::MAX), epsilon = 1e-11));
        }
    }

    #[test]
    fn both_doors_of_a_bound_agree(estimate in estimate(), limits in limits()) {
        // What a one-sided reading allows holds for every two-sided one that starts there.
        let (low, sigma) = (estimate.low().unwrap(), estimate.normal_uncertainty());
        let open = Estimate::at_least(low, sigma).probabilities(&limits);
        let known = estimate.probabilities(&limits);
        let slack = 1e-9;
        for (bound, chance) in [
            (open.below, known.below), (open.in_band, known.in_band), (open.above, known.above),
        ] {
            prop_assert!(chance.least >= bound.least - slack, "{bound:?} {chance:?}");
            prop_assert!(chance.most <= bound.most + slack, "{bound:?} {chance:?}");
        }
        let high = estimate.high().unwrap();
        let open = Estimate::at_most(high, sigma).probabilities(&limits);
        for (bound, chance) in [
            (open.below, known.below), (open.in_band, known.in_band), (open.above, known.above),
        ] {
            prop_assert!(chance.least >= bound.least - slack, "{bound:?} {chance:?}");
            prop_assert!(chance.most <= bound.most + slack, "{bound:?} {chance:?}");
        }
    }

    #[test]
    fn what_is_accepted_is_provable(estimate in estimate(), limits in limits()) {
        for rule in [
            Lash::USUAL_RULE,
            DecisionRule::simple(),
            DecisionRule::iso_14253_1(),
            DecisionRule::guarded(0.99, 0.9).unwrap(),
        ] {
            let judged = judge(&estimate, &limits, &rule);
            prop_assert!(judged.provable || judged.verdict != Verdict::InBand);
            // Moved so that its centre is the band's centre, an accepted one stays provable.
            if let (Some(at), Some(l), Some(h)) =
                (estimate.centre(), limits.lower(), limits.upper())
            {
                let to = l.mm() + 0.5 * (h.mm() - l.mm());
                let change = LashChange::from_mm(to - at.mm()).unwrap();
                let moved = estimate.shifted(change, Uncertainty::ZERO);
                let there = judge(&moved, &limits, &rule);
                prop_assert!(judged.provable || there.verdict != Verdict::InBand);
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn closed_form_is_the_integral(
        low in 0.0..0.3_f64, width in 1e-6..0.2_f64, sigma in 0.002..0.1_f64, limits in limits(),
    ) {
        let high = low + width;
        let p = Estimate::between(lash(low), lash(high), u(sigma)).unwrap()
            .probabilities(&limits);
        let (tl, tu) = (limits.lower().unwrap().mm(), limits.upper().unwrap().mm());
        let tight = brute_below(low, high, sigma, tl);
        let loose = brute_below(-high, -low, sigma, -tu);
        // The midpoint rule errs by about (step / sigma)^2 (1 + z^2) / 24.
        let step = width / 4000.0 / sigma;
        let close = |got: f64, want: f64, t: f64| {
            let z = ((low - t) / sigma).abs().max(((high - t) / sigma).abs());
            abs_diff_eq!(got, want, epsilon = want * (step * step * (1.0 + z * z) / 12.0 + 1e-11) + 1e-300)
        };
        prop_assert!(close(p.below.least, tight, tl), "{} {tight}", p.below.least);
        prop_assert!(close(p.above.least, loose, tu), "{} {loose}", p.above.least);
        let inside = brute_below(low, high, sigma, tu) - tight;
        prop_assert!(abs_diff_eq!(p.in_band.least, inside, epsilon = step * step + 1e-9));
    }
}
