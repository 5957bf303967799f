//! The leaf to try next, against every strategy there is.

#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use lashwork::feeler::{Leaf, LeafSet, next_leaf, pair_around};
use lashwork::quantity::{Marked, Nominal};
use lashwork_tests::values::mark;
use proptest::collection::vec;
use proptest::prelude::{any, prop_assert, prop_assert_eq, proptest};

/// A strategy: a place to try and what follows if it goes or does not; `None` stops.
type Plan = Option<Box<Node>>;
#[derive(Clone)]
struct Node {
    at: usize,
    goes: Plan,
    refuses: Plan,
}

/// Every way to go on between two places, stopping early included.
fn all_plans(from: usize, to: usize) -> Vec<Plan> {
    let mut plans = vec![None];
    for at in from + 1..to {
        for goes in all_plans(at, to) {
            for refuses in all_plans(from, at) {
                let (goes, refuses) = (goes.clone(), refuses.clone());
                plans.push(Some(Box::new(Node { at, goes, refuses })));
            }
        }
    }
    plans
}

/// The question: settled from a lower end at `over` on, or with an upper end at `under` at most, or between
/// such narrow ends as `width`.
#[derive(Clone, Copy, Debug)]
struct Question {
    over: i64,
    under: i64,
    width: i64,
}

impl Question {
    fn is_settled(&self, low: i64, high: i64) -> bool {
        low >= self.over || high <= self.under || high - low <= self.width
    }
}

/// Share of gaps that a strategy settles, and the tries it takes on the mean, by walking every gap.
fn walk(plan: &Plan, ends: &[i64], question: Question) -> (f64, f64) {
    let (mut settled, mut tries) = (0.0, 0.0);
    for cell in ends.windows(2) {
        let share = (cell[1] - cell[0]) as f64 / (ends.last().unwrap() - ends[0]) as f64;
        let (mut low, mut high) = (ends[0], *ends.last().unwrap());
        let mut now = plan;
        while let Some(node) = now.as_ref().filter(|_| !question.is_settled(low, high)) {
            tries += share;
            if cell[0] >= ends[node.at] {
                (low, now) = (ends[node.at], &node.goes);
            } else {
                (high, now) = (ends[node.at], &node.refuses);
            }
        }
        if question.is_settled(low, high) {
            settled += share;
        }
    }
    (settled, tries)
}

fn leaf(microns: i64) -> Leaf {
    Leaf::new(mark(&format!("{microns} um")))
}

fn microns(nominal: Nominal) -> i64 {
    nominal.nanometres() / 1000
}

/// Checks the leaf against the best of all strategies.
fn check(
    sizes: &[i64],
    low: i64,
    high: i64,
    question: Question,
) -> Result<(), proptest::test_runner::TestCaseError> {
    let mut ends = vec![low];
    ends.extend(sizes.iter().filter(|size| low < **size && **size < high));
    ends.push(high);
    let best = all_plans(0, ends.len() - 1)
        .iter()
        .map(|plan| walk(plan, &ends, question))
        .reduce(|best, other| {
            let more = other.0 - best.0;
            let better = more > 1e-9 || (more > -1e-9 && other.1 < best.1 - 1e-9);
            if better { other } else { best }
        })
        .unwrap();
    let set = LeafSet::new(sizes.iter().map(|size| leaf(*size)).collect()).unwrap();
    let settled = |goes: Option<Leaf>, refuses: Option<Leaf>| {
        let at = |leaf: Option<Leaf>, end| leaf.map_or(end, |leaf| microns(leaf.mark.nominal()));
        question.is_settled(at(goes, low), at(refuses, high))
    };
    let nominal = |microns: i64| Nominal::from_nanometres(microns * 1000).unwrap();
    let found = next_leaf(&set, (nominal(low), nominal(high)), &settled);
    match found {
        None => prop_assert!(best.0 < 1e-9 || best.1 < 1e-9, "missed {best:?}"),
        Some(next) => {
            prop_assert!((next.settles - best.0).abs() < 1e-9, "{next:?} {best:?}");
            prop_assert!(
                (next.expected_tries - best.1).abs() < 1e-9,
                "{next:?} {best:?}"
            );
            prop_assert!(low < microns(next.leaf.mark.nominal()));
        }
    }
    Ok(())
}

proptest! {
    #[test]
    fn the_next_leaf_is_the_first_of_the_best_strategy(
        steps in vec(10..60_i64, 1..6),
        over in 0..300_i64, band in 0..120_i64, width in 0..60_i64, rest in 1..200_i64,
    ) {
        let sizes: Vec<i64> = steps.iter().scan(20, |at, step| { *at += step; Some(*at) }).collect();
        let high = sizes.last().unwrap() + rest;
        check(&sizes, 0, high, Question { over, under: over - band, width })?;
    }

    /// The pair holds the gap between its leaves, singles wherever a single lies in the band.
    #[test]
    fn a_pair_holds_the_gap(steps in vec(10..60_i64, 1..8), gap in 20..400_i64, wide in any::<bool>()) {
        let sizes: Vec<i64> = steps.iter().scan(20, |at, step| { *at += step; Some(*at) }).collect();
        let set = LeafSet::new(sizes.iter().map(|size| leaf(*size)).collect()).unwrap();
        let nominal = |microns: i64| Nominal::from_nanometres(microns * 1000).unwrap();
        let half = if wide { 100 } else { 25 };
        let pair = pair_around(&set, nominal(gap), (nominal((gap - half).max(0)), nominal(gap + half))).unwrap();
        let size = |stack: &lashwork::feeler::Stack| microns(stack.thickness());
        if let Some(goes) = &pair.goes {
            prop_assert!(size(goes) < gap);
            let single = sizes.iter().any(|size| gap - half <= *size && *size <= gap - 9);
            let in_band = goes.leaves().len() == 1 && size(goes) >= gap - half;
            prop_assert_eq!(single, in_band);
            prop_assert!(pair.drags.is_none() || goes.leaves().len() == 1);
        }
        if let Some(refuses) = &pair.refuses {
            prop_assert!(size(refuses) > gap);
        }
        if let Some(drags) = pair.drags {
            prop_assert!((microns(drags.mark.nominal()) - gap).abs() < 9);
        }
    }
}

/// Where two singles stand on either side of the gap no stack is named.
/// Source: Commercial Motor, 19 January 1968, p. 51: the minimum number of blades should be used.
#[test]
fn singles_are_named_before_stacks() {
    let sizes = [
        "0.04 mm", "0.05 mm", "0.10 mm", "0.12 mm", "0.15 mm", "0.18 mm", "0.25 mm", "0.28 mm",
    ];
    let set = LeafSet::new(sizes.map(mark).map(Leaf::new).to_vec()).unwrap();
    let text = |gap: &str, low: &str, high: &str| {
        let nominal = |text: &str| Marked::nominal(mark(text));
        pair_around(&set, nominal(gap), (nominal(low), nominal(high)))
            .unwrap()
            .to_string()
    };
    assert_eq!(
        text("0.265 mm", "0.25 mm", "0.30 mm"),
        "0.25 mm goes, 0.28 mm does not"
    );
    assert_eq!(
        text("0.161 mm", "0.14 mm", "0.18 mm"),
        "0.15 mm goes, 0.18 mm does not"
    );
    // No single leaf is in the band below: the fewest that are.
    assert_eq!(
        text("0.22 mm", "0.20 mm", "0.26 mm"),
        "0.15 mm + 0.05 mm goes, 0.25 mm does not"
    );
}
