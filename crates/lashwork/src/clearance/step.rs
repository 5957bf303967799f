//! What comes before an amount.

use crate::feeler::LeafSet;
use crate::quantity::Lash;
use crate::tolerance::Estimate;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// A step to take before anything is set, with a name that never changes.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Step {
    /// Which it is.
    pub code: StepCode,
    /// What to do.
    pub text: String,
}

/// Which step comes first.
///
/// ```
/// use lashwork::clearance::StepCode;
/// assert_ne!(StepCode::CloseValve, StepCode::TestCompression);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum StepCode {
    /// Make sure that the valve is closed.
    CloseValve,
    /// There is no lash: test compression or leakage before it runs.
    TestCompression,
    /// Find the leaf that goes.
    FindLeaf,
}

/// What comes first where a leaf does not go and none is known to: the valve may stand on its cam, or have
/// no lash at all. Nothing for any other reading.
///
/// # Source
/// Common practice, no source.
pub(super) fn first(felt: &Estimate<Lash>, leaves: &LeafSet) -> Vec<Step> {
    let (None, Some(high)) = (felt.low(), felt.high()) else {
        return Vec::new();
    };
    let mut steps = alloc::vec![Step {
        code: StepCode::CloseValve,
        text: String::from(
            "make sure that this valve is closed: its cylinder at firing TDC, rocker or bucket free; if in \
             doubt turn one full turn on and try again",
        ),
    }];
    let thinner = leaves
        .leaves()
        .iter()
        .rfind(|leaf| leaf.mark.mm() < high.mm());
    steps.push(match thinner {
        Some(leaf) => Step {
            code: StepCode::FindLeaf,
            text: format!("find the leaf that goes: try {}", leaf.mark),
        },
        None => Step {
            code: StepCode::TestCompression,
            text: String::from(
                "if still none goes, it has no lash and may be held off its seat: test compression or \
                 leakage before it runs",
            ),
        },
    });
    steps
}
