//! Laws of stacks and readings on generated input.

#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test fails by panicking"
)]

use approx::abs_diff_eq;
use lashwork::Refusal;
use lashwork::feeler::{
    Combination, GaugeUse, Hollow, Leaf, LeafSet, Reading, Stack, assumed_leaf_tolerance,
    best_stack,
};
use lashwork::quantity::{Lash, LengthUnit, Marked, Nominal};
use lashwork::tolerance::Estimate;
use proptest::prelude::*;

fn marked(nanometres: i64) -> Marked {
    let nominal = Nominal::from_nanometres(nanometres).unwrap();
    Marked::new(nominal, LengthUnit::Millimetre, 6)
}

fn stack(nanometres: i64) -> Stack {
    Stack::new(vec![Leaf::new(marked(nanometres))]).unwrap()
}

fn set(sizes: &[i64]) -> LeafSet {
    LeafSet::new(sizes.iter().map(|&n| Leaf::new(marked(n))).collect()).unwrap()
}

fn felt(reading: &Reading, hollow: Option<Hollow>) -> Estimate<Lash> {
    let used = GaugeUse {
        combination: Combination::RootSumSquare,
        ..GaugeUse::default()
    };
    reading.estimate_with(&used, hollow).unwrap().estimate
}

/// Hundredths of a millimetre and thousandths of an inch, in nanometres; coarse, so that ties occur.
fn sizes(most: usize) -> impl Strategy<Value = Vec<i64>> {
    let leaf = prop_oneof![
        (1..40_i64).prop_map(|i| i * 10_000),
        (1..16_i64).prop_map(|i| i * 25_400)
    ];
    prop::collection::btree_set(leaf, 1..=most).prop_map(|s| s.into_iter().collect())
}

/// Every subset of up to `most` leaves, by the stated order: least error, fewest, thickest first.
fn brute_force(sizes: &[i64], target: i64, most: usize) -> (i64, Vec<i64>) {
    (1_u32..1 << sizes.len())
        .map(|mask| {
            let mut chosen: Vec<i64> = (0..sizes.len())
                .filter(|i| mask & (1 << i) != 0)
                .map(|i| sizes[i])
                .collect();
            chosen.reverse();
            chosen
        })
        .filter(|chosen| chosen.len() <= most)
        .map(|chosen| ((chosen.iter().sum::<i64>() - target).abs(), chosen))
        .min_by_key(|(error, chosen)| {
            let thin: Vec<i64> = chosen.iter().map(|n| -n).collect();
            (*error, chosen.len(), thin)
        })
        .unwrap()
}

proptest! {
    #[test]
    fn best_stack_equals_brute_force(
        sizes in sizes(9), target in 1..1_200_000_i64, most in 1..=4_u8, coarse in any::<bool>(),
    ) {
        let target = if coarse { (target / 5_000 + 1) * 5_000 } else { target };
        let wanted = Nominal::from_nanometres(target).unwrap();
        let wide = Nominal::from_nanometres(10_000_000).unwrap();
        let best = best_stack(&set(&sizes), wanted, most, wide).unwrap();
        let found: Vec<i64> =
            best.stack.leaves().iter().map(|l| l.mark.nominal().nanometres()).collect();
        let (error, chosen) = brute_force(&sizes, target, usize::from(most));
        prop_assert_eq!(found, chosen);
        prop_assert_eq!(best.error.nanometres().abs(), error);
        prop_assert_eq!(best.stack.thickness().minus(wanted).unwrap(), best.error);
    }

    #[test]
    fn best_stack_is_never_worse_than_a_single_leaf(
        sizes in sizes(60), target in 1..1_200_000_i64, most in 1..=3_u8,
    ) {
        let wanted = Nominal::from_nanometres(target).unwrap();
        let wide = Nominal::from_nanometres(10_000_000).unwrap();
        let best = best_stack(&set(&sizes), wanted, most, wide).unwrap();
        for n in &sizes {
            prop_assert!(best.error.nanometres().abs() <= (n - target).abs());
        }
    }

    #[test]
    fn exact_single_leaf_wins(sizes in sizes(20), pick in any::<prop::sample::Index>()) {
        let target = *pick.get(&sizes);
        let wanted = Nominal::from_nanometres(target).unwrap();
        let best = best_stack(&set(&sizes), wanted, 4, Nominal::ZERO).unwrap();
        prop_assert_eq!(best.stack, stack(target));
    }

    #[test]
    fn further_leaf_that_refuses_widens_the_interval(
        goes in 10_000..500_000_i64, step in 1..100_000_i64, more in 1..100_000_i64,
    ) {
        let near = felt(&Reading::between(stack(goes), stack(goes + step)).unwrap(), None);
        let far = felt(&Reading::between(stack(goes), stack(goes + step + more)).unwrap(), None);
        prop_assert_eq!(near.low(), far.low());
        prop_assert!(near.high() < far.high());
        prop_assert!(near.low() < near.high());
    }

    #[test]
    fn hollow_adds_to_both_ends_and_to_the_doubt(
        goes in 10_000..500_000_i64, step in 1..100_000_i64,
        depth in 0..200_000_i64, doubt in 1_000..50_000_i64,
    ) {
        let reading = Reading::between(stack(goes), stack(goes + step)).unwrap();
        let plain = felt(&reading, None);
        let hollow = Hollow { depth: marked(depth), uncertainty: marked(doubt) };
        let worn = felt(&reading, Some(hollow));
        let depth = marked(depth).mm();
        // Both sums are exact nanometres rounded once; the difference here rounds again.
        for (flat, true_gap) in [(plain.low(), worn.low()), (plain.high(), worn.high())] {
            let opened = (true_gap.unwrap() - flat.unwrap()).mm();
            prop_assert!(abs_diff_eq!(opened, depth, epsilon = 1e-12));
        }
        prop_assert!(worn.normal_uncertainty() > plain.normal_uncertainty());
        prop_assert!(worn.normal_uncertainty().mm() >= marked(doubt).mm());
    }

    #[test]
    fn what_goes_must_be_thinner_than_what_does_not(
        goes in 1_000..500_000_i64, thinner in 0..500_i64,
    ) {
        let refused = Reading::between(stack(goes), stack(goes - thinner)).unwrap_err();
        prop_assert_eq!(refused.code(), "feeler.contradiction");
        let text = refused.to_string();
        prop_assert!(text.contains(&marked(goes).to_string()));
        prop_assert!(text.contains(&marked(goes - thinner).to_string()));
    }

    #[test]
    fn squares_never_exceed_the_plain_sum(sizes in sizes(10)) {
        let leaves = sizes.iter().map(|&n| Leaf::new(marked(n))).collect();
        let stack = Stack::new(leaves).unwrap();
        let t = assumed_leaf_tolerance();
        let worst = stack.tolerance(Combination::WorstCase, t, marked(0)).unwrap();
        let likely = stack.tolerance(Combination::RootSumSquare, t, marked(0)).unwrap();
        prop_assert!(likely <= worst + 1e-15);
        prop_assert!(likely >= t.mm() - 1e-15);
    }
}

#[test]
fn search_is_bounded() {
    let many: Vec<i64> = (1..=101).map(|i| i * 10_000).collect();
    let target = Nominal::from_nanometres(55_000).unwrap();
    let code = |sizes: &[i64], most| {
        best_stack(&set(sizes), target, most, Nominal::ZERO)
            .unwrap_err()
            .code()
    };
    assert_eq!(code(&many, 2), "feeler.set-too-large");
    assert_eq!(code(&many[..100], 5), "feeler.leaf-count");
    assert_eq!(code(&many[..100], 0), "feeler.leaf-count");
    assert_eq!(code(&many[..100], 4), "feeler.no-stack");
}

#[test]
fn leaves_that_cannot_be_are_refused() {
    let code = |sizes: &[i64]| {
        let leaves = sizes.iter().map(|&n| Leaf::new(marked(n))).collect();
        LeafSet::new(leaves).unwrap_err().code()
    };
    assert_eq!(code(&[]), "feeler.no-leaves");
    assert_eq!(code(&[10_000, 0]), "feeler.leaf-not-positive");
    assert_eq!(code(&[-10_000]), "feeler.leaf-not-positive");
    let negative = Leaf {
        mark: marked(10_000),
        tolerance: Some(marked(-1)),
    };
    let refused = Stack::new(vec![negative]).unwrap_err();
    assert_eq!(refused.code(), "feeler.negative");
    let drag = Reading::drags(stack(10_000), marked(0)).unwrap_err();
    assert_eq!(drag.code(), "feeler.not-positive");
}

/// The same thickness in two units contradicts itself too: 0.005 in is 0.127 mm exactly.
#[test]
fn same_thickness_cannot_both_go_and_not_go() {
    let one = |text| Stack::new(vec![Leaf::new(Marked::parse(text).unwrap())]).unwrap();
    let refused = Reading::between(one("0.005 in"), one("0.127 mm")).unwrap_err();
    assert_eq!(refused.code(), "feeler.contradiction");
    assert!(refused.to_string().contains("0.005 in goes but 0.127 mm"));
}

/// Halfway between two leaves the thicker is taken; two stacks of equal error and number are told
/// apart by their thickest leaf.
#[test]
fn ties_go_to_the_thicker_leaf() {
    let best = |sizes: &[i64], target, most| {
        let target = Nominal::from_nanometres(target).unwrap();
        let wide = Nominal::from_nanometres(100_000).unwrap();
        let best = best_stack(&set(sizes), target, most, wide).unwrap();
        let leaves = best.stack.leaves().iter();
        leaves
            .map(|l| l.mark.nominal().nanometres())
            .collect::<Vec<_>>()
    };
    assert_eq!(best(&[100_000, 200_000], 150_000, 1), [200_000]);
    assert_eq!(
        best(&[100_000, 200_000, 300_000, 400_000], 500_000, 2),
        [400_000, 100_000]
    );
    assert_eq!(best(&[100_000, 200_000, 300_000], 300_000, 4), [300_000]);
}

/// What a report shows of a reading: marks as typed with their millimetres, a missing end as null.
#[test]
fn readings_serialise_with_units_named() {
    let nothing = Reading::nothing_goes(&set(&[50_000]));
    let json = serde_json::to_value(nothing.estimate().unwrap()).unwrap();
    assert_eq!(json["estimate"]["low"], serde_json::Value::Null);
    assert_eq!(json["estimate"]["high"]["mm"], 0.05);
    assert_eq!(json["assumed"]["tolerance"]["text"], "0.00035 in");
    let json = serde_json::to_value(&nothing).unwrap();
    let mark = &json["refuses"]["leaves"][0]["mark"];
    assert_eq!(mark["text"], "0.050000 mm");
    let json = serde_json::to_value(set(&[50_000])).unwrap();
    assert_eq!(json.as_array().unwrap().len(), 1);
}
