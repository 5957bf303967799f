//! Leaves for a thickness the set does not have.

use super::{FeelerError, Leaf, LeafSet, Stack};
use crate::quantity::{LengthUnit, Nominal};
use alloc::string::ToString;
use alloc::vec::Vec;
use serde::Serialize;

/// Widest miss of a stack that is still worth naming: 0.05 mm. This library's choice.
pub const NAMED_WITHIN: Nominal = Nominal::of_nanometres::<50_000>();
/// Most leaves a set may have for [`best_stack`].
pub const MAX_SEARCH_LEAVES: usize = 100;
/// Most leaves a stack from [`best_stack`] may have.
pub const MAX_STACK_LEAVES: u8 = 4;

/// The stack nearest to a target.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct BestStack {
    /// The leaves, thickest first.
    pub stack: Stack,
    /// Thickness minus target: positive is too thick.
    pub error: Nominal,
}

/// The leaves of a set around a thickness.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Bracket {
    /// The thickest leaf that is thinner.
    pub below: Option<Leaf>,
    /// The leaf of exactly that thickness.
    pub at: Option<Leaf>,
    /// The thinnest leaf that is thicker.
    pub above: Option<Leaf>,
}

/// The neighbouring leaves of a thickness.
///
/// ```
/// use lashwork::feeler::{Leaf, LeafSet, bracket};
/// use lashwork::quantity::Marked;
/// let leaf = |text| Marked::parse(text).map(Leaf::new);
/// let set = LeafSet::new(vec![leaf("0.10 mm")?, leaf("0.15 mm")?])?;
/// let around = bracket(&set, Marked::parse("0.005 in")?.nominal());
/// assert_eq!((around.below, around.at), (Some(leaf("0.10 mm")?), None));
/// assert_eq!(around.above, Some(leaf("0.15 mm")?));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn bracket(set: &LeafSet, around: Nominal) -> Bracket {
    let leaves = set.leaves();
    Bracket {
        below: leaves.iter().rfind(|l| l.nominal() < around).copied(),
        at: set.find(around),
        above: leaves.iter().find(|l| l.nominal() > around).copied(),
    }
}

/// The best stack for a target thickness, by exact search.
///
/// Order of preference: least `|error|`, then fewest leaves, then the thicker leaves (comparing
/// the thickest first). Each leaf is used at most once. A single leaf of the exact thickness
/// always wins. Leaf tolerances are not weighed; [`Stack::tolerance`] gives them. `within` is the
/// largest error that is still a stack, zero for only an exact one. The work is at most about
/// `100^3 / 6` look-ups.
///
/// # Errors
/// [`FeelerError::SetTooLarge`] over [`MAX_SEARCH_LEAVES`]; [`FeelerError::LeafCount`] outside 1 to
/// [`MAX_STACK_LEAVES`]; [`FeelerError::NotPositive`] for the target; [`FeelerError::Negative`] for
/// `within`; [`FeelerError::NoStack`] if the best is off by more than `within`;
/// [`FeelerError::Quantity`] for a stack over ten metres.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::feeler::{Leaf, LeafSet, best_stack};
/// use lashwork::quantity::{Marked, Nominal};
/// let leaf = |text| Marked::parse(text).map(Leaf::new);
/// let set = LeafSet::new(vec![leaf("0.05 mm")?, leaf("0.10 mm")?, leaf("0.20 mm")?])?;
/// let best = best_stack(&set, Marked::parse("0.15 mm")?.nominal(), 2, Nominal::ZERO)?;
/// assert_eq!(best.stack.to_string(), "0.10 mm + 0.05 mm");
/// assert_eq!(best.error, Nominal::ZERO);
/// let none = best_stack(&set, Marked::parse("0.17 mm")?.nominal(), 3, Nominal::ZERO);
/// assert_eq!(none.unwrap_err().code(), "feeler.no-stack");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn best_stack(
    set: &LeafSet,
    target: Nominal,
    max_leaves: u8,
    within: Nominal,
) -> Result<BestStack, FeelerError> {
    let show = |n: Nominal| n.show(LengthUnit::Millimetre, 6);
    if set.leaves().len() > MAX_SEARCH_LEAVES {
        return Err(FeelerError::SetTooLarge {
            leaves: set.leaves().len(),
            max: MAX_SEARCH_LEAVES,
        });
    }
    if !(1..=MAX_STACK_LEAVES).contains(&max_leaves) {
        return Err(FeelerError::LeafCount {
            got: max_leaves,
            max: MAX_STACK_LEAVES,
        });
    }
    if target <= Nominal::ZERO {
        return Err(FeelerError::NotPositive {
            what: "the thickness wanted",
            got: show(target),
        });
    }
    if within < Nominal::ZERO {
        return Err(FeelerError::Negative {
            what: "the error allowed",
            got: show(within),
        });
    }
    let mut search = Search {
        best: alloc::vec![set.smallest()],
        best_error: i64::MAX,
        chosen: Vec::new(),
    };
    for count in 1..=max_leaves {
        search.extend(set.leaves(), target.nanometres(), count);
    }
    let stack = Stack::new(search.best)?;
    let error = stack.thickness().minus(target)?;
    if error.nanometres().abs() > within.nanometres() {
        return Err(FeelerError::NoStack {
            target: show(target),
            within: show(within),
            nearest: stack.to_string(),
            off: show(error),
        });
    }
    Ok(BestStack { stack, error })
}

struct Search {
    best: Vec<Leaf>,
    /// Size of the error of `best` in nanometres.
    best_error: i64,
    chosen: Vec<Leaf>,
}

impl Search {
    /// Tries every choice of `count` more leaves out of `pool` (thinnest first) to fill `rest`.
    ///
    /// Goes from the thickest down and keeps only what is strictly better, so among equals the
    /// first found stays: fewer leaves, then thicker ones.
    fn extend(&mut self, pool: &[Leaf], rest: i64, count: u8) {
        if count <= 1 {
            self.finish(pool, rest);
            return;
        }
        let mut pool = pool;
        while let Some((&thickest, thinner)) = pool.split_last() {
            self.chosen.push(thickest);
            self.extend(thinner, rest - thickest.nominal().nanometres(), count - 1);
            self.chosen.pop();
            pool = thinner;
        }
    }

    /// Takes the last leaf: only the two next to `rest` can be nearest, the thicker one first.
    fn finish(&mut self, pool: &[Leaf], rest: i64) {
        let split = pool.partition_point(|leaf| leaf.nominal().nanometres() < rest);
        let (below, above) = pool.split_at(split);
        for &leaf in above.first().into_iter().chain(below.last()) {
            let error = (leaf.nominal().nanometres() - rest).abs();
            if error < self.best_error {
                self.best_error = error;
                self.best.clone_from(&self.chosen);
                self.best.push(leaf);
            }
        }
    }
}
