//! One leaf and a set of leaves.

use super::{FeelerError, Stack};
use crate::quantity::{LengthUnit, Marked, Nominal};
use alloc::string::ToString;
use alloc::vec::Vec;
use serde::Serialize;

/// The tolerance taken for a leaf whose maker states none: 0.00035 in (8.89 um) either way.
///
/// It is one gauge maker's printed tolerance for a 0.010 in leaf, not a standard's table. Using it
/// is an assumption that a job must list; [`ReadingEstimate`](super::ReadingEstimate) says when it was used.
///
/// # Source
/// Eastern Gage, page "feeler gage accumulation": 0.010 in leaf, +/-0.00035 in.
///
/// ```
/// use lashwork::feeler::assumed_leaf_tolerance;
/// assert_eq!(assumed_leaf_tolerance().to_string(), "0.00035 in");
/// ```
#[must_use]
pub const fn assumed_leaf_tolerance() -> Marked {
    Marked::new(Nominal::of_nanometres::<8_890>(), LengthUnit::Inch, 5)
}

/// One feeler leaf: the thickness printed on it and, if its maker states one, the tolerance.
///
/// [`LeafSet::new`] and [`Stack::new`](super::Stack::new) check both.
///
/// ```
/// use lashwork::feeler::Leaf;
/// use lashwork::quantity::Marked;
/// let leaf = Leaf::new(Marked::parse("0.006 in")?);
/// assert_eq!(leaf.mark.mm(), 0.1524);
/// assert!(leaf.tolerance.is_none());
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Leaf {
    /// The printed thickness.
    pub mark: Marked,
    /// Half width of the maker's tolerance: the leaf is `mark` plus or minus this.
    pub tolerance: Option<Marked>,
}

impl Leaf {
    /// A leaf without a stated tolerance.
    #[must_use]
    pub const fn new(mark: Marked) -> Self {
        Self {
            mark,
            tolerance: None,
        }
    }

    pub(super) const fn nominal(&self) -> Nominal {
        self.mark.nominal()
    }

    pub(super) fn check(&self) -> Result<(), FeelerError> {
        if self.nominal() <= Nominal::ZERO {
            return Err(FeelerError::LeafNotPositive { leaf: self.mark });
        }
        match self.tolerance {
            Some(tolerance) => not_negative("the tolerance of a leaf", tolerance),
            None => Ok(()),
        }
    }
}

pub(super) fn not_negative(what: &'static str, got: Marked) -> Result<(), FeelerError> {
    if got.nominal() < Nominal::ZERO {
        let got = got.to_string();
        return Err(FeelerError::Negative { what, got });
    }
    Ok(())
}

/// The leaves of one or more gauges, thinnest first, each thickness once; never empty. A leaf that is
/// given twice is there twice: [`lay`](LeafSet::lay).
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::feeler::{Leaf, LeafSet};
/// use lashwork::quantity::Marked;
/// let leaf = |text| Marked::parse(text).map(Leaf::new);
/// let set = LeafSet::new(vec![leaf("0.006 in")?, leaf("0.10 mm")?])?;
/// assert_eq!(set.smallest().mark.to_string(), "0.10 mm");
/// assert_eq!(set.largest().mark.to_string(), "0.006 in");
/// // 25.4 mm and 1 in are the same leaf.
/// let twice = LeafSet::new(vec![leaf("1 in")?, leaf("25.4 mm")?]);
/// assert_eq!(twice.unwrap_err().code(), "feeler.leaf-twice");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(transparent)]
pub struct LeafSet {
    leaves: Vec<Leaf>,
    #[serde(skip)]
    smallest: Leaf,
    #[serde(skip)]
    largest: Leaf,
    /// What is there besides, of thicknesses that are in the set.
    #[serde(skip)]
    more: Vec<Nominal>,
}

impl LeafSet {
    /// Takes leaves in any order and in any units and sorts them by thickness.
    ///
    /// # Errors
    /// [`FeelerError::NoLeaves`]; [`FeelerError::LeafNotPositive`]; [`FeelerError::Negative`] for a
    /// tolerance; [`FeelerError::LeafTwice`] for two of the same nanometres that are marked in two ways.
    pub fn new(mut leaves: Vec<Leaf>) -> Result<Self, FeelerError> {
        for leaf in &leaves {
            leaf.check()?;
        }
        leaves.sort_by_key(Leaf::nominal);
        let mut more = Vec::new();
        for (thin, thick) in leaves.iter().zip(leaves.iter().skip(1)) {
            if thin == thick {
                more.push(thin.nominal());
            } else if thin.nominal() == thick.nominal() {
                return Err(FeelerError::LeafTwice {
                    first: thin.mark,
                    second: thick.mark,
                });
            }
        }
        leaves.dedup();
        let (Some(&smallest), Some(&largest)) = (leaves.first(), leaves.last()) else {
            return Err(FeelerError::NoLeaves { what: "set" });
        };
        Ok(Self {
            leaves,
            smallest,
            largest,
            more,
        })
    }

    /// Lays leaves together that this set has.
    ///
    /// # Errors
    /// [`FeelerError::NotSoMany`] for a leaf named more often than it is there; those of [`Stack::new`].
    ///
    /// ```
    /// use lashwork::Refusal;
    /// use lashwork::feeler::{Leaf, LeafSet};
    /// use lashwork::quantity::Marked;
    /// let leaf = Leaf::new(Marked::parse("0.25 mm")?);
    /// let (one, two) = (LeafSet::new(vec![leaf])?, LeafSet::new(vec![leaf, leaf])?);
    /// assert_eq!(one.lay(vec![leaf, leaf]).unwrap_err().code(), "feeler.not-so-many");
    /// assert_eq!(two.lay(vec![leaf, leaf])?.thickness(), Marked::parse("0.50 mm")?.nominal());
    /// assert_eq!(two.leaves().len(), 1);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn lay(&self, leaves: Vec<Leaf>) -> Result<Stack, FeelerError> {
        for leaf in &leaves {
            let same = |other: &Nominal| *other == leaf.nominal();
            let used = leaves.iter().map(Leaf::nominal).filter(same).count();
            let more = self.more.iter().copied().filter(same).count();
            let held = usize::from(self.find(leaf.nominal()).is_some()) + more;
            if used > held {
                return Err(FeelerError::NotSoMany {
                    leaf: leaf.mark,
                    used,
                    held,
                });
            }
        }
        Stack::new(leaves)
    }

    /// All leaves, thinnest first.
    #[must_use]
    pub fn leaves(&self) -> &[Leaf] {
        &self.leaves
    }

    /// The thinnest leaf.
    #[must_use]
    pub const fn smallest(&self) -> Leaf {
        self.smallest
    }

    /// The thickest leaf.
    #[must_use]
    pub const fn largest(&self) -> Leaf {
        self.largest
    }

    /// The leaf of exactly this thickness, whatever unit it is marked in.
    ///
    /// ```
    /// use lashwork::feeler::{Leaf, LeafSet};
    /// use lashwork::quantity::Marked;
    /// let set = LeafSet::new(vec![Leaf::new(Marked::parse("0.005 in")?)])?;
    /// assert!(set.find(Marked::parse("0.127 mm")?.nominal()).is_some());
    /// assert!(set.find(Marked::parse("0.13 mm")?.nominal()).is_none());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn find(&self, thickness: Nominal) -> Option<Leaf> {
        let at = self.leaves.binary_search_by_key(&thickness, Leaf::nominal);
        at.ok().and_then(|i| self.leaves.get(i)).copied()
    }
}
