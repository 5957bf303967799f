//! The leaves to find after a setting.

use super::error::ClearanceError;
use crate::feeler::{LeafSet, pair_around};
use crate::quantity::{Lash, Nominal};
use alloc::string::{String, ToString};
use serde::Serialize;

/// The leaves to find after a setting: which must go, which drags, which must not go.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct LeavesToFind {
    /// What must go; nothing if no leaf is thin enough.
    pub goes: Option<String>,
    /// The leaf of the very size, which drags, if there is one.
    pub drags: Option<String>,
    /// What must not go; nothing if no leaf is thick enough.
    pub refuses: Option<String>,
    /// The same in words.
    pub text: String,
}

/// The leaves for a gap as it is felt, inside the set band as it is felt where they can be.
pub(super) fn leaves_to_find(
    leaves: &LeafSet,
    feel: Lash,
    (low, high): (Option<Nominal>, Option<Nominal>),
) -> Result<Option<LeavesToFind>, ClearanceError> {
    let gap = Nominal::nearest_mm(feel.mm())?;
    let most = leaves.largest().mark.nominal();
    let within = (low.unwrap_or(Nominal::ZERO), high.unwrap_or(most));
    let pair = pair_around(leaves, gap, within)?;
    let text = pair.to_string();
    // That a thicker leaf does not go shows no gap.
    let shows_it = pair.goes.is_some() || pair.drags.is_some();
    Ok(shows_it.then(|| LeavesToFind {
        goes: pair.goes.map(|stack| stack.to_string()),
        drags: pair.drags.map(|leaf| leaf.mark.to_string()),
        refuses: pair.refuses.map(|stack| stack.to_string()),
        text,
    }))
}
