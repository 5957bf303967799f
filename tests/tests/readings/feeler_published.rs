//! Feeler gauges against published figures.

#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use approx::assert_abs_diff_eq;
use lashwork::feeler::{
    Combination, GaugeUse, Leaf, LeafSet, Reading, ReadingEstimate, Stack, assumed_hand,
    assumed_joint, assumed_leaf_tolerance, bracket,
};
use lashwork::quantity::{Lash, LengthUnit, Marked, Nominal};
use lashwork_tests::values::mark as marked;

fn one(text: &str) -> Stack {
    Stack::new(vec![Leaf::new(marked(text))]).unwrap()
}

fn set(texts: &[&str]) -> LeafSet {
    LeafSet::new(texts.iter().map(|t| Leaf::new(marked(t))).collect()).unwrap()
}

/// What the leaves alone say.
fn felt(reading: &Reading) -> ReadingEstimate {
    let used = GaugeUse {
        hand: Some(marked("0 mm")),
        ..GaugeUse::default()
    };
    reading.estimate_with(&used, None).unwrap()
}

/// The standard uncertainty of the ends in millimetres.
fn u(reading: &Reading) -> f64 {
    felt(reading).estimate.normal_uncertainty().mm()
}

/// Ends in millimetres.
fn ends(reading: &Reading) -> (Option<f64>, Option<f64>) {
    let found = felt(reading).estimate;
    (found.low().map(Lash::mm), found.high().map(Lash::mm))
}

/// Leaves 0.02 to 3 mm, steps 0.01, 0.05, 0.1 and 1 mm. Source: kotobank.jp (Britannica item).
#[test]
fn usual_range_of_leaves_makes_a_set() {
    let mut nanometres: Vec<i64> = (2..10).map(|i| i * 10_000).collect();
    nanometres.extend((2..10).map(|i| i * 50_000));
    nanometres.extend((5..10).map(|i| i * 100_000));
    nanometres.extend((1..=3).map(|i| i * 1_000_000));
    let leaves = nanometres.iter().map(|&n| {
        let nominal = Nominal::from_nanometres(n).unwrap();
        Leaf::new(Marked::new(nominal, LengthUnit::Millimetre, 2))
    });
    let set = LeafSet::new(leaves.rev().collect()).unwrap();
    assert_eq!(set.smallest().mark, marked("0.02 mm"));
    assert_eq!(set.largest().mark, marked("3.00 mm"));
}

/// Tools of 2 to 26 blades in thousandths of an inch. Source: TM 9-243 p. 16-2.
#[test]
fn tools_of_2_to_26_blades_make_sets() {
    for blades in [2, 26] {
        let leaves = (1..=blades).map(|i| Leaf::new(marked(&format!("{i} thou"))));
        let set = LeafSet::new(leaves.collect()).unwrap();
        assert_eq!(set.leaves().len(), blades);
        assert_eq!(set.smallest().mark.nominal().nanometres(), 25_400);
    }
}

/// A 0.010 in leaf is made to +/-0.00035 in. Source: easterngage.com feeler-gage-accumulation.
#[test]
fn assumed_tolerance_is_the_printed_one() {
    assert_eq!(assumed_leaf_tolerance(), marked("0.00035 in"));
    let t = one("0.010 in").tolerance(
        Combination::WorstCase,
        assumed_leaf_tolerance(),
        marked("0 mm"),
    );
    // The tolerance is exact nanometres; one rounding to f64 is allowed.
    assert_abs_diff_eq!(t.unwrap(), 0.00889, epsilon = 1e-15);
    // Rectangle: a / sqrt 3 (JCGM 100:2008, 4.3.7); 8.89 / 1.7320508 = 5.13264 um by hand.
    let u = u(&Reading::goes(one("0.010 in")));
    assert_abs_diff_eq!(u, 0.005_132_64, epsilon = 1e-8);
}

/// Stack of ten such leaves: 0.0035 in worst case, 0.00111 in by root of the sum of squares.
/// Source: easterngage.com feeler-gage-accumulation for the leaf; t k and t sqrt k derived.
#[test]
fn ten_leaves_stack_their_tolerances() {
    let ten = Stack::new(vec![Leaf::new(marked("0.010 in")); 10]).unwrap();
    let worst = ten.tolerance(
        Combination::WorstCase,
        assumed_leaf_tolerance(),
        marked("0 mm"),
    );
    let likely = ten.tolerance(
        Combination::RootSumSquare,
        assumed_leaf_tolerance(),
        marked("0 mm"),
    );
    assert_abs_diff_eq!(worst.unwrap() / 25.4, 0.0035, epsilon = 1e-12);
    // Printed to five decimals.
    assert_abs_diff_eq!(likely.unwrap() / 25.4, 0.00111, epsilon = 0.000_005);
    assert_eq!(ten.thickness(), marked("0.100 in").nominal());
}

/// Stepped leaf 0.18/0.23 mm: the tip goes, the body stops; the set value 0.20 mm is between.
/// Source: wonkeedonkeetools.co.uk go/no-go feeler gauge.
#[test]
fn stepped_leaf_encloses_the_set_value() {
    let reading = Reading::between(one("0.18 mm"), one("0.23 mm")).unwrap();
    assert_eq!(ends(&reading), (Some(0.18), Some(0.23)));
    // The same tool in inches: 0.007 in goes, 0.009 in does not.
    let inch = ends(&Reading::between(one("0.007 in"), one("0.009 in")).unwrap());
    assert_eq!(inch, (Some(0.1778), Some(0.2286)));
}

/// The thickest leaf that slides is the reading; the gap may differ by up to the step to the next.
/// Source: dia-gauge.co.jp explanation.
#[test]
fn gap_may_differ_by_the_step_between_leaves() {
    let reading = Reading::between(one("0.10 mm"), one("0.15 mm")).unwrap();
    let found = felt(&reading).estimate;
    let (low, high) = (found.low().unwrap(), found.high().unwrap());
    assert_abs_diff_eq!((high - low).mm(), 0.05, epsilon = 1e-15);
}

/// Specification 0.101-0.152 mm (0.004-0.006 in), set with the 0.127 mm (0.005 in) leaf.
/// Source: Kohler SV710 manual text, lawnmowerforum.com thread 59286.
#[test]
fn five_thou_leaf_sits_in_its_band() {
    let gauge = set(&["0.004 in", "0.005 in", "0.006 in"]);
    let leaf = gauge.find(marked("0.127 mm").nominal()).unwrap();
    assert_eq!(leaf.mark.to_string(), "0.005 in");
    let around = bracket(&gauge, leaf.mark.nominal());
    assert_eq!(around.below.unwrap().mark.to_string(), "0.004 in");
    assert_eq!(around.at, Some(leaf));
    assert_eq!(around.above.unwrap().mark.to_string(), "0.006 in");
    // The millimetres are printed cut to three decimals: 0.1016 and 0.1524.
    assert_abs_diff_eq!(around.below.unwrap().mark.mm(), 0.101, epsilon = 0.001);
    assert_abs_diff_eq!(around.above.unwrap().mark.mm(), 0.152, epsilon = 0.001);
}

/// Nothing goes: less than the thinnest leaf, never zero. Rule derived from the step procedure
/// (dia-gauge.co.jp explanation); workshop sets start at 0.05 mm (gaugehow.com).
#[test]
fn nothing_goes_is_less_than_the_thinnest_leaf() {
    let reading = Reading::nothing_goes(&set(&["0.10 mm", "0.05 mm"]));
    assert_eq!(ends(&reading), (None, Some(0.05)));
}

/// Everything goes: at least the thickest leaf, no upper end. Source as above.
#[test]
fn everything_goes_is_at_least_the_thickest_leaf() {
    let reading = Reading::everything_goes(&set(&["0.10 mm", "1.00 mm"]));
    assert_eq!(ends(&reading), (Some(1.0), None));
}

/// The maker's own tolerance is used where there is one. Source: definition of the field.
#[test]
fn stated_tolerance_replaces_the_assumed_one() {
    let stated = Leaf {
        mark: marked("0.10 mm"),
        tolerance: Some(marked("3 um")),
    };
    let own = Reading::goes(Stack::of(stated).unwrap());
    assert_eq!(felt(&own).assumed.tolerance, None);
    // 3 um / sqrt 3 = sqrt 3 um.
    assert_abs_diff_eq!(u(&own), 0.003 / 3_f64.sqrt(), epsilon = 1e-12);
    // Beside a leaf without one, the larger end counts: 8.89 um / sqrt 3.
    let mixed = Reading::between(Stack::new(vec![stated]).unwrap(), one("0.15 mm")).unwrap();
    let assumed = felt(&mixed).assumed.tolerance;
    assert_eq!(assumed, Some(assumed_leaf_tolerance()));
    assert_abs_diff_eq!(u(&mixed), 0.00889 / 3_f64.sqrt(), epsilon = 1e-12);
}

/// A light drag: centre, spread and leaf joined by root of the sum of squares (JCGM 100:2008, 5.1.2):
/// with a = 3 um (u = 1.7320508 um), spread 10 um, sqrt(3 + 100) = 10.148892 um.
#[test]
fn light_drag_joins_spread_and_leaf() {
    let stated = Leaf {
        mark: marked("0.10 mm"),
        tolerance: Some(marked("3 um")),
    };
    let reading = Reading::drags(Stack::new(vec![stated]).unwrap(), marked("10 um")).unwrap();
    assert_eq!(ends(&reading), (Some(0.1), Some(0.1)));
    assert_abs_diff_eq!(u(&reading), 0.010_148_892, epsilon = 1e-8);
}

/// The hand blurs each end of a reading: 8 um (common practice, no source) with a leaf of 3 um, half
/// width, is sqrt(64 + 3) = 8.185353 um by hand; JCGM 100:2008, 5.1.2. It is said when it was taken.
#[test]
fn the_hand_is_in_every_end() {
    let stated = Leaf {
        mark: marked("0.10 mm"),
        tolerance: Some(marked("3 um")),
    };
    let (thin, thick) = (Stack::of(stated).unwrap(), one("0.15 mm"));
    let exact = GaugeUse {
        unstated: Some(marked("0 mm")),
        ..GaugeUse::default()
    };
    for reading in [
        Reading::goes(thin.clone()),
        Reading::refuses(thin.clone()),
        Reading::between(thin, thick).unwrap(),
    ] {
        let found = reading.estimate_with(&exact, None).unwrap();
        assert_eq!(found.assumed.hand, Some(assumed_hand()));
        let u = found.estimate.normal_uncertainty().mm();
        assert_abs_diff_eq!(u, 0.008_185_353, epsilon = 1e-9);
    }
}

/// A drag without a spread is taken and said to be assumed; it is not blurred by the hand twice.
#[test]
fn a_drag_without_a_spread_takes_the_usual_one() {
    let reading: Reading = "0.10 mm drags".parse().unwrap();
    let exact = GaugeUse {
        unstated: Some(marked("0 mm")),
        ..GaugeUse::default()
    };
    let found = reading.estimate_with(&exact, None).unwrap();
    assert_eq!(found.assumed.drag, Some(marked("0.010 mm")));
    assert_eq!(found.assumed.hand, None);
    assert_abs_diff_eq!(
        found.estimate.normal_uncertainty().mm(),
        0.010,
        epsilon = 1e-15
    );
}

/// Ten leaves of 0.010 in measured 0.106 in, then 0.105 in. Source: easterngage.com
/// feeler-gage-accumulation. Marks and leaf tolerances alone reach neither by squares, nor 0.106 in
/// by the plain sum; with what lies between the leaves both are reached.
#[test]
fn a_stack_may_be_as_thick_as_it_was_measured() {
    let ten = Stack::new(vec![Leaf::new(marked("0.010 in")); 10]).unwrap();
    let reach = |how, joint| {
        let half = ten.tolerance(how, assumed_leaf_tolerance(), joint);
        (ten.thickness().mm() + half.unwrap()) / 25.4
    };
    for how in [Combination::WorstCase, Combination::RootSumSquare] {
        assert!(reach(how, marked("0 mm")) < 0.105);
        assert!(reach(how, assumed_joint()) >= 0.106);
    }
    let pair = "0.10 mm + 0.05 mm goes".parse::<Reading>().unwrap();
    assert_eq!(
        pair.estimate().unwrap().assumed.joint,
        Some(assumed_joint())
    );
    let single = "0.10 mm goes".parse::<Reading>().unwrap();
    assert_eq!(single.estimate().unwrap().assumed.joint, None);
}
