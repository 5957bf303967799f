//! The feeler leaves at hand.

use crate::problem::{Problem, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::feeler::{Combination, GaugeUse, Leaf, LeafSet};
use lashwork::quantity::Marked;

named!(Combination as "CombinationDoc" { WorstCase = "worst_case", RootSumSquare = "root_sum_square" });

parts! {
    /// The feeler leaves.
    GaugeDoc {
        /// The leaves; one that is listed twice is there twice.
        leaves: Vec<Q<Marked>>,
        /// Plus or minus on every leaf.
        tolerance: Option<Q<Marked>>,
        /// How leaf tolerances add in a stack.
        stack_tolerance: W<Combination>,
        /// Standard uncertainty of the hand at each end of a reading; 0.008 mm is assumed, and listed, if it
        /// is not stated.
        hand: Option<Q<Marked>>,
        /// What oil and air may add at each joint between the leaves of a stack; 0.015 mm is assumed, and
        /// listed, if it is not stated.
        joint: Option<Q<Marked>>,
    }
}

/// How the leaves are used, each field checked where it stands.
pub(crate) fn gauge_use(
    gauge: &GaugeDoc,
    at: &str,
    problems: &mut Vec<Problem>,
) -> Option<GaugeUse> {
    let hand = GaugeUse {
        hand: gauge.hand.map(|hand| hand.0),
        ..GaugeUse::default()
    };
    let joint = GaugeUse {
        joint: gauge.joint.map(|joint| joint.0),
        ..GaugeUse::default()
    };
    let checked = [
        value(problems, format!("{at}/hand"), hand.check()),
        value(problems, format!("{at}/joint"), joint.check()),
    ];
    checked.iter().all(Option::is_some).then_some(GaugeUse {
        combination: gauge.stack_tolerance.0,
        joint: joint.joint,
        ..hand
    })
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
