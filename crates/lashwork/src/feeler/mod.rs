//! Tier 2: feeler gauges, what a reading with them says about the gap, and stacks of leaves.
//!
//! # Conventions
//! - A leaf is what is printed on it ([`Leaf`]), exact to the nanometre; a set may mix units.
//! - A reading never becomes a single number by itself: the leaf that goes and the one that does
//!   not give an interval `[goes, refuses)`. Nothing going means less than the thinnest leaf, not
//!   zero; everything going means at least the thickest, with no upper end.
//! - Tolerances are half widths of a rectangular distribution, so `u = a / sqrt 3`
//!   (JCGM 100:2008, 4.3.7).
//! - The hand blurs each end of a bracket by a normal standard uncertainty, as it does a light drag.
//!
//! # Not here
//! What the gap means against limits (`tolerance`), the gap at another temperature (`thermal`).
//!
//! This module uses only `quantity` and `tolerance`.

mod error;
mod estimate;
mod gauge_use;
mod leaf;
mod next_leaf;
mod pair;
mod reading;
mod search;
mod stack;

pub use error::FeelerError;
pub use estimate::{Hollow, ReadingEstimate};
pub use gauge_use::{Assumed, GaugeUse, assumed_drag, assumed_hand, assumed_joint};
pub use leaf::{Leaf, LeafSet, assumed_leaf_tolerance};
pub use next_leaf::{NextLeaf, next_leaf};
pub use pair::{LeafPair, pair_around};
pub use reading::Reading;
pub use search::{
    BestStack, Bracket, MAX_SEARCH_LEAVES, MAX_STACK_LEAVES, NAMED_WITHIN, best_stack, bracket,
};
pub use stack::{Combination, Stack};
