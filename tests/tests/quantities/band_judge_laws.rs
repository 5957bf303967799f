//! Laws of judging many: what was found out about one reading never changes the answer to another.

#![allow(
    clippy::expect_used,
    reason = "a generated value outside the range it was drawn from is a mistake in the test"
)]

use lashwork::quantity::{Lash, LengthUnit, Marked, Nominal};
use lashwork::tolerance::{
    BandJudge, DecisionRule, Estimate, HasLimits, Judgement, Limits, Uncertainty, judge,
};
use proptest::prelude::*;

fn estimates() -> impl Strategy<Value = Vec<Estimate<Lash>>> {
    // Spreads around those at which a band of 0.02 to 0.1 mm stops being provable, and wild ones.
    let width = prop_oneof![Just(0.0), 0.0..0.2, Just(0.05)];
    let u = prop_oneof![Just(0.0), 0.0..0.05, 0.012..0.0135, Just(0.005)];
    let one = (-0.3..0.6, width, u, 0_u8..8).prop_map(|(low, width, u, ends)| {
        let u = Uncertainty::from_mm(u).expect("in range");
        let (low, high) = (Lash::from_mm(low), Lash::from_mm(low + width));
        let (low, high) = (low.expect("in range"), high.expect("in range"));
        match ends {
            0 => Estimate::at_least(low, u),
            1 => Estimate::at_most(high, u),
            _ => Estimate::between(low, high, u).expect("not crossed"),
        }
    });
    prop::collection::vec(one, 1..40)
}

fn limits() -> impl Strategy<Value = Limits<Lash>> {
    let mark = |nm| {
        let nominal = Nominal::from_nanometres(nm).expect("in range");
        Marked::new(nominal, LengthUnit::Millimetre, 3)
    };
    (0_i64..300_000, 0_i64..100_000, 0_u8..8).prop_map(move |(low, width, ends)| match ends {
        0 => Limits::at_least(mark(low)),
        1 => Limits::at_most(mark(low)),
        _ => Limits::between(mark(low), mark(low + width)).expect("not crossed"),
    })
}

fn rules() -> impl Strategy<Value = DecisionRule> {
    prop_oneof![
        Just(Lash::USUAL_RULE),
        Just(DecisionRule::simple()),
        Just(DecisionRule::iso_14253_1()),
        (0.5..0.999, 0.5..0.999).prop_map(|(t, l)| DecisionRule::guarded(t, l).expect("in range")),
    ]
}

fn bits(judgement: &Judgement) -> Vec<u64> {
    let p = judgement.probabilities;
    [p.below, p.in_band, p.above]
        .iter()
        .flat_map(|chance| [chance.least.to_bits(), chance.most.to_bits()])
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn many_are_judged_like_each_alone(estimates in estimates(), limits in limits(), rule in rules()) {
        let mut many = BandJudge::new(&limits, &rule);
        for estimate in &estimates {
            let (among, alone) = (many.judge(estimate), judge(estimate, &limits, &rule));
            prop_assert_eq!(among, alone);
            prop_assert_eq!(bits(&among), bits(&alone));
        }
    }
}
