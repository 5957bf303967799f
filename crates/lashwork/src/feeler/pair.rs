//! The leaves by which a gap is recognised.

use super::{FeelerError, Leaf, LeafSet, MAX_SEARCH_LEAVES, Stack, assumed_leaf_tolerance};
use crate::quantity::Nominal;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;
use serde::Serialize;

/// Most leaves on a side of a pair.
const PAIR_LEAVES: u8 = 3;

/// The leaves by which a gap is recognised: the one that must go, the one that must not, and one of that
/// very size, which drags.
///
/// ```
/// use lashwork::feeler::{Leaf, LeafSet, pair_around};
/// use lashwork::quantity::{Marked, Nominal};
/// let leaf = |text| Marked::parse(text).map(Leaf::new);
/// let set = LeafSet::new(vec![leaf("0.15 mm")?, leaf("0.18 mm")?, leaf("0.20 mm")?, leaf("0.22 mm")?])?;
/// let gap = |text| Marked::parse(text).map(Marked::nominal);
/// let pair = pair_around(&set, gap("0.165 mm")?, (Nominal::ZERO, gap("0.2 mm")?))?;
/// assert_eq!(pair.to_string(), "0.15 mm goes, 0.18 mm does not");
/// let pair = pair_around(&set, gap("0.20 mm")?, (Nominal::ZERO, gap("0.3 mm")?))?;
/// assert_eq!(pair.to_string(), "0.18 mm goes, 0.20 mm drags, 0.22 mm does not");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LeafPair {
    /// What must go; nothing if no leaf is thin enough.
    pub goes: Option<Stack>,
    /// The leaf that drags, if there is one of that size.
    pub drags: Option<Leaf>,
    /// What must not go; nothing if no leaf is thick enough.
    pub refuses: Option<Stack>,
}

impl fmt::Display for LeafPair {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let drags = self.drags.map(|leaf| format!("{} drags", leaf.mark));
        let does_not = match (&self.goes, &drags) {
            (None, None) => "does not go",
            _ => "does not",
        };
        let parts = [
            self.goes.as_ref().map(|stack| format!("{stack} goes")),
            drags,
            self.refuses
                .as_ref()
                .map(|stack| format!("{stack} {does_not}")),
        ];
        let parts: Vec<String> = parts.into_iter().flatten().collect();
        f.write_str(&parts.join(", "))
    }
}

/// The leaves by which a gap is recognised. A single leaf is taken on each side if its size lies in the
/// band `within`, which its being felt then proves; else the fewest leaves, up to three, that make such a
/// size; else, or where a single leaf of the very size drags, the nearest single leaf. A leaf nearer to the gap than [`assumed_leaf_tolerance`] may go or
/// not: it drags.
///
/// # Errors
/// [`FeelerError::Quantity`] for a stack over ten metres.
///
/// # Source
/// As few blades as possible: Commercial Motor, 19 January 1968, p. 51.
pub fn pair_around(
    set: &LeafSet,
    gap: Nominal,
    within: (Nominal, Nominal),
) -> Result<LeafPair, FeelerError> {
    let at = gap.nanometres();
    let off = |leaf: &Leaf| (leaf.nominal().nanometres() - at).abs();
    let clear = assumed_leaf_tolerance().nominal().nanometres();
    let leaves = set.leaves();
    let same = leaves.iter().filter(|leaf| off(leaf) <= clear);
    let drags = same.min_by_key(|leaf| off(leaf)).copied();
    let (thinner, thicker) = (at.saturating_sub(clear + 1), at.saturating_add(clear + 1));
    // A leaf that drags needs no company; without one, each side is to prove the band.
    let most = match drags {
        Some(_) => 1,
        None if leaves.len() > MAX_SEARCH_LEAVES => 1,
        None => PAIR_LEAVES,
    };
    let side = |band: (i64, i64), anywhere: (i64, i64), thickest: bool| {
        let found = (1..=most)
            .find_map(|count| sum_in(leaves, band, count, thickest))
            .or_else(|| sum_in(leaves, anywhere, 1, thickest));
        found.map(|(_, leaves)| Stack::new(leaves)).transpose()
    };
    let (least, greatest) = (within.0.nanometres(), within.1.nanometres());
    Ok(LeafPair {
        goes: side((least, thinner), (0, thinner), true)?,
        drags,
        refuses: side((thicker, greatest), (thicker, i64::MAX), false)?,
    })
}

/// The thickest, or the thinnest, choice of so many leaves of a pool (thinnest first) whose sum lies in a
/// range, both ends included.
fn sum_in(
    pool: &[Leaf],
    (from, to): (i64, i64),
    count: u8,
    thickest: bool,
) -> Option<(i64, Vec<Leaf>)> {
    let size = |leaf: &Leaf| leaf.nominal().nanometres();
    if count <= 1 {
        let leaf = if thickest {
            pool.iter().rfind(|leaf| size(leaf) <= to)
        } else {
            pool.iter().find(|leaf| size(leaf) >= from)
        };
        let leaf = leaf.filter(|leaf| (from..=to).contains(&size(leaf)))?;
        return Some((size(leaf), alloc::vec![*leaf]));
    }
    let mut best: Option<(i64, Vec<Leaf>)> = None;
    let mut pool = pool;
    while let Some((leaf, thinner)) = pool.split_last() {
        let own = size(leaf);
        let rest = (from.saturating_sub(own), to.saturating_sub(own));
        if let Some((sum, mut others)) = sum_in(thinner, rest, count - 1, thickest) {
            let sum = sum + own;
            let better = best
                .as_ref()
                .is_none_or(|(known, _)| if thickest { sum > *known } else { sum < *known });
            if better {
                others.insert(0, *leaf);
                best = Some((sum, others));
            }
        }
        pool = thinner;
    }
    best
}
