//! The feeler leaves at hand.

use crate::problem::{Problem, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::feeler::{Combination, Leaf, LeafSet};
use lashwork::quantity::Marked;

named!(Combination as "CombinationDoc" { WorstCase = "worst_case", RootSumSquare = "root_sum_square" });

parts! {
    /// The feeler leaves.
    GaugeDoc {
        leaves: Vec<Q<Marked>>,
        /// Plus or minus on every leaf.
        tolerance: Option<Q<Marked>>,
        /// How leaf tolerances add in a stack.
        stack_tolerance: W<Combination>,
    }
}

/// The leaves at hand.
pub(crate) fn leaf_set(gauge: &GaugeDoc, at: &str, problems: &mut Vec<Problem>) -> Option<LeafSet> {
    let tolerance = gauge.tolerance.map(|t| t.0);
    let leaves = gauge
        .leaves
        .iter()
        .map(|mark| Leaf {
            mark: mark.0,
            tolerance,
        })
        .collect();
    value(problems, format!("{at}/leaves"), LeafSet::new(leaves))
}
