//! What an answer about the contact breaker takes for granted.

use super::{DwellChange, LobeModel};
use core::fmt;
use serde::Serialize;

/// Something an answer about the contact breaker rests on that nobody stated.
///
/// ```
/// use lashwork::ignition::breaker::BreakerAssumption;
/// let taken = BreakerAssumption::FlanksSymmetric;
/// assert_eq!(taken.code(), "ignition.flanks-symmetric");
/// assert!(taken.to_string().contains("half"));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum BreakerAssumption {
    /// Both flanks of a lobe are taken alike.
    FlanksSymmetric,
    /// The lobe's shape is taken as half a cosine through one published pair.
    HalfCosineLobe,
    /// The contacts are taken to be flat.
    ContactsFlat,
    /// How much the block of new contacts wears in is taken.
    WearIn {
        /// Least growth of dwell.
        from: DwellChange,
        /// Most.
        to: DwellChange,
    },
}

impl BreakerAssumption {
    /// A short name that never changes.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::FlanksSymmetric => "ignition.flanks-symmetric",
            Self::HalfCosineLobe => "ignition.half-cosine-lobe",
            Self::ContactsFlat => "ignition.contacts-flat",
            Self::WearIn { .. } => "ignition.wear-in",
        }
    }
}

impl fmt::Display for BreakerAssumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::FlanksSymmetric => f.write_str(
                "both flanks of a lobe are taken alike: half of a change of dwell falls on the one that opens the contacts",
            ),
            Self::HalfCosineLobe => write!(
                f,
                "gap and dwell are joined by a lobe of half a cosine through one published pair; away from that pair its slope is taken as right within {:.0} % (this library's choice, no source)",
                100.0 * LobeModel::SLOPE_DOUBT
            ),
            Self::ContactsFlat => f.write_str(
                "the contacts are not stated to be pitted and are taken as flat; on pitted ones a leaf shows less than the true gap",
            ),
            Self::WearIn { from, to } => write!(
                f,
                "the block of new contacts is taken to wear in by {from} to {to} of dwell (an owner's observation; no maker's figure)"
            ),
        }
    }
}
