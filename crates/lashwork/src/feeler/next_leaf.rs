//! Which leaf to try next.
//!
//! # Method
//! The gap is taken to lie anywhere between the thickest leaf that goes and the thinnest that does not, all
//! places alike. Each leaf between them splits that range in two; the leaf to try is the first of the
//! strategy that settles the question most often and, among those, with the fewest tries on the mean. It is
//! found exactly, from the narrowest ranges up (dynamic programming over pairs of leaves).
//!
//! # Source
//! Bellman's principle of optimality; the recursion is that of an optimal binary search tree (Knuth, Acta
//! Informatica 1, 1971, pp. 14 to 25), stopped where the question is settled.

use super::{Leaf, LeafSet, MAX_SEARCH_LEAVES};
use crate::quantity::Nominal;
use alloc::vec::Vec;

/// Differences below this are rounding.
const SAME: f64 = 1e-12;

/// The leaf to try next.
///
/// ```
/// use lashwork::feeler::{Leaf, LeafSet, next_leaf};
/// use lashwork::quantity::{Marked, Nominal};
/// let leaf = |text| Marked::parse(text).map(Leaf::new);
/// let set = LeafSet::new(vec![leaf("0.10 mm")?, leaf("0.20 mm")?, leaf("0.30 mm")?])?;
/// // What is asked: is it over 0.20 mm?
/// let limit = Marked::parse("0.20 mm")?.nominal();
/// let settled = |goes: Option<Leaf>, refuses: Option<Leaf>| {
///     goes.is_some_and(|l| l.mark.nominal() >= limit) || refuses.is_some_and(|l| l.mark.nominal() <= limit)
/// };
/// let most = Marked::parse("0.40 mm")?.nominal();
/// let next = next_leaf(&set, (Nominal::ZERO, most), &settled).ok_or("a leaf")?;
/// assert_eq!((next.leaf, next.expected_tries, next.settles), (leaf("0.20 mm")?, 1.0, 1.0));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NextLeaf {
    /// The leaf.
    pub leaf: Leaf,
    /// How many tries it takes on the mean, this one included, until it is settled or no leaf helps.
    pub expected_tries: f64,
    /// Probability that the leaves at hand settle it.
    pub settles: f64,
}

/// What can be reached from a range.
#[derive(Clone, Copy)]
struct Reach {
    settles: f64,
    tries: f64,
    /// The leaf to try, by its place.
    first: Option<usize>,
}

/// The leaf of a set to try next for a gap known to lie between two thicknesses.
///
/// `settled` says whether the question is answered when a leaf goes and another does not; `None` stands for
/// the end of the range on that side, as it is known now. Nothing comes back if it is settled already, if no
/// leaf lies between, if none can settle it, or for more than [`MAX_SEARCH_LEAVES`] leaves.
#[must_use]
pub fn next_leaf(
    set: &LeafSet,
    (low, high): (Nominal, Nominal),
    settled: &dyn Fn(Option<Leaf>, Option<Leaf>) -> bool,
) -> Option<NextLeaf> {
    if set.leaves().len() > MAX_SEARCH_LEAVES || settled(None, None) {
        return None;
    }
    let between = |leaf: &&Leaf| low < leaf.nominal() && leaf.nominal() < high;
    let leaves: Vec<Leaf> = set.leaves().iter().filter(between).copied().collect();
    // Place 0 is the lower end of the range, the last place its upper one.
    let last = leaves.len() + 1;
    let leaf = |place: usize| leaves.get(place.checked_sub(1)?).copied();
    let at = |place: usize| match leaf(place) {
        Some(leaf) => leaf.nominal().mm(),
        None if place == 0 => low.mm(),
        None => high.mm(),
    };
    let mut known: Vec<Reach> = Vec::new();
    known.resize(
        (last + 1) * (last + 1),
        Reach {
            settles: 0.0,
            tries: 0.0,
            first: None,
        },
    );
    let place = |from: usize, to: usize| from * (last + 1) + to;
    for span in 1..=last {
        for from in 0..=last - span {
            let to = from + span;
            let mut best = Reach {
                settles: if settled(leaf(from), leaf(to)) {
                    1.0
                } else {
                    0.0
                },
                tries: 0.0,
                first: None,
            };
            let tries = if best.settles > 0.0 {
                0..0
            } else {
                from + 1..to
            };
            for middle in tries {
                let goes = (at(to) - at(middle)) / (at(to) - at(from));
                let reach = |from, to| known.get(place(from, to)).copied();
                let (Some(if_goes), Some(if_not)) = (reach(middle, to), reach(from, middle)) else {
                    continue;
                };
                let mean = |a: f64, b: f64| goes * a + (1.0 - goes) * b;
                let settles = mean(if_goes.settles, if_not.settles);
                let tries = 1.0 + mean(if_goes.tries, if_not.tries);
                let more = settles - best.settles;
                let better = more > SAME
                    || (more > -SAME && best.first.is_some() && tries < best.tries - SAME);
                if better {
                    best = Reach {
                        settles,
                        tries,
                        first: Some(middle),
                    };
                }
            }
            if let Some(slot) = known.get_mut(place(from, to)) {
                *slot = best;
            }
        }
    }
    let reach = known.get(place(0, last))?;
    Some(NextLeaf {
        leaf: leaf(reach.first?)?,
        expected_tries: reach.tries,
        settles: reach.settles,
    })
}
