//! How leaves are used: what their tolerances, the joints of a stack and the hand add to a reading.

use super::leaf::not_negative;
use super::{Combination, FeelerError};
use crate::quantity::{LengthUnit, Marked, Nominal};
use serde::Serialize;

/// Standard uncertainty taken of the hand where it is not stated: at each end of a bracket a leaf
/// this much too thick may go, or one this much too thin may not; 0.008 mm. Using it is an assumption
/// that a job must list; [`ReadingEstimate`](super::ReadingEstimate) says when it was used.
///
/// # Source
/// Common practice, no source: a placeholder until a hand is measured.
///
/// ```
/// use lashwork::feeler::assumed_hand;
/// assert_eq!(assumed_hand().to_string(), "0.008 mm");
/// ```
#[must_use]
pub const fn assumed_hand() -> Marked {
    Marked::new(Nominal::of_nanometres::<8_000>(), LengthUnit::Millimetre, 3)
}

/// Standard uncertainty taken of a light drag where it is not stated: 0.010 mm. Using it is an assumption
/// that a job must list.
///
/// # Source
/// Common practice, no source.
///
/// ```
/// use lashwork::feeler::assumed_drag;
/// assert_eq!(assumed_drag().to_string(), "0.010 mm");
/// ```
#[must_use]
pub const fn assumed_drag() -> Marked {
    Marked::new(
        Nominal::of_nanometres::<10_000>(),
        LengthUnit::Millimetre,
        3,
    )
}

/// What is taken of each joint between the leaves of a stack, where it is not stated: half width 0.015 mm
/// for oil and air between them. Using it is an assumption that a job must list.
///
/// # Source
/// Eastern Gage, page "feeler gage accumulation": ten leaves of 0.010 in measured 0.106 in, then 0.105 in:
/// 0.014 to 0.017 mm for each of nine joints.
///
/// ```
/// use lashwork::feeler::assumed_joint;
/// assert_eq!(assumed_joint().to_string(), "0.015 mm");
/// ```
#[must_use]
pub const fn assumed_joint() -> Marked {
    Marked::new(
        Nominal::of_nanometres::<15_000>(),
        LengthUnit::Millimetre,
        3,
    )
}

/// How leaves are used; what is left out is assumed, and the estimate says so.
///
/// ```
/// use lashwork::feeler::{Combination, GaugeUse, Reading};
/// use lashwork::quantity::Marked;
/// let reading: Reading = "0.12 mm goes, 0.15 mm does not".parse()?;
/// let exact = Some(Marked::parse("0 mm")?);
/// let used = GaugeUse { unstated: exact, hand: exact, ..GaugeUse::default() };
/// assert_eq!(used.combination, Combination::WorstCase);
/// let found = reading.estimate_with(&used, None)?;
/// assert_eq!(found.estimate.normal_uncertainty().mm(), 0.0);
/// assert!(found.assumed.hand.is_none());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct GaugeUse {
    /// How the tolerances of the leaves of a stack add up.
    pub combination: Combination,
    /// Half width of the tolerance of a leaf that states none; if not stated,
    /// [`assumed_leaf_tolerance`](super::assumed_leaf_tolerance).
    pub unstated: Option<Marked>,
    /// Standard uncertainty of the hand at each end of a bracket, zero or more; if not stated,
    /// [`assumed_hand`]. A light drag has its own.
    pub hand: Option<Marked>,
    /// What each joint between the leaves of a stack may add, zero or more; if not stated,
    /// [`assumed_joint`].
    pub joint: Option<Marked>,
}

impl GaugeUse {
    /// Whether it can be so.
    ///
    /// # Errors
    /// [`FeelerError::Negative`] for a tolerance, a hand or a joint below zero.
    ///
    /// ```
    /// use lashwork::feeler::GaugeUse;
    /// use lashwork::quantity::Marked;
    /// let mut used = GaugeUse::default();
    /// assert!(used.check().is_ok());
    /// used.hand = Some(Marked::parse("-0.01 mm")?);
    /// assert!(used.check().is_err());
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    pub fn check(&self) -> Result<(), FeelerError> {
        let stated = [
            ("the tolerance taken for a leaf", self.unstated),
            ("the uncertainty of the hand", self.hand),
            ("the joint between two leaves", self.joint),
        ];
        let mut stated = stated.into_iter();
        stated.try_for_each(|(what, got)| got.map_or(Ok(()), |got| not_negative(what, got)))
    }
}

/// What had to be assumed for an estimate; nothing where it was stated or did not matter.
///
/// ```
/// use lashwork::feeler::{Reading, assumed_hand, assumed_leaf_tolerance};
/// let assumed = "0.12 mm goes".parse::<Reading>()?.estimate()?.assumed;
/// assert_eq!(assumed.tolerance, Some(assumed_leaf_tolerance()));
/// assert_eq!((assumed.hand, assumed.drag), (Some(assumed_hand()), None));
/// # Ok::<(), lashwork::feeler::FeelerError>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Assumed {
    /// The tolerance taken for leaves that state none.
    pub tolerance: Option<Marked>,
    /// The standard uncertainty taken of the hand.
    pub hand: Option<Marked>,
    /// The standard uncertainty taken of a light drag.
    pub drag: Option<Marked>,
    /// What was taken of each joint of a stack.
    pub joint: Option<Marked>,
}
