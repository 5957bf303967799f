//! The gap a reading stands for.

use super::leaf::not_negative;
use super::{
    Assumed, FeelerError, GaugeUse, Reading, Stack, assumed_drag, assumed_hand, assumed_joint,
    assumed_leaf_tolerance,
};
use crate::quantity::{Lash, Marked, Nominal, QuantityError};
use crate::tolerance::{Estimate, Judgement, Limits, Uncertainty};
use serde::Serialize;

/// A worn hollow that a flat leaf bridges, so that the leaf feels less than the gap in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Hollow {
    /// Its depth below the surface the leaf lies on; zero or more.
    pub depth: Marked,
    /// Standard uncertainty of the depth; zero or more.
    pub uncertainty: Marked,
}

/// The estimate a reading leads to, and what had to be assumed for it.
///
/// ```
/// use lashwork::feeler::{Reading, assumed_leaf_tolerance};
/// use lashwork::tolerance::Verdict;
/// let reading: Reading = "0.12 mm goes, 0.15 mm does not".parse()?;
/// let found = reading.estimate()?;
/// assert_eq!(found.judged_by(&"0.006 in to 0.010 in".parse()?).verdict, Verdict::Below);
/// assert_eq!(found.assumed.tolerance, Some(assumed_leaf_tolerance()));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[must_use]
pub struct ReadingEstimate {
    /// The gap: its lower end is included; without one nothing goes, and the valve may even be held
    /// open. Its upper end is excluded; without one everything goes. Both are equal after a light drag.
    pub estimate: Estimate<Lash>,
    /// What had to be assumed of leaves and hand.
    pub assumed: Assumed,
}

impl ReadingEstimate {
    /// The verdict by the usual rule of lash; see [`Estimate::judged_by`].
    #[must_use]
    pub fn judged_by(&self, limits: &Limits<Lash>) -> Judgement {
        self.estimate.judged_by(limits)
    }
}

impl Reading {
    /// The gap the reading stands for, everything but the marks assumed; see [`Self::estimate_with`].
    ///
    /// # Errors
    /// [`FeelerError::Quantity`] for a gap that cannot be a lash.
    ///
    /// ```
    /// use lashwork::feeler::Reading;
    /// let reading: Reading = "0.05 mm does not go".parse()?;
    /// let found = reading.estimate()?.estimate;
    /// assert!(found.low().is_none());
    /// assert_eq!(found.high().map(|h| h.mm()), Some(0.05));
    /// # Ok::<(), lashwork::feeler::FeelerError>(())
    /// ```
    pub fn estimate(&self) -> Result<ReadingEstimate, FeelerError> {
        self.estimate_with(&GaugeUse::default(), None)
    }

    /// The gap the reading stands for. No memory is allocated.
    ///
    /// A leaf tolerance `a` is the half width of a rectangle: `u = a / sqrt 3`. Of two ends the
    /// larger `u` stands for both, which is conservative. The hand at each end, or the spread of a light
    /// drag, and the uncertainty of the hollow join by the root of the sum of squares: a bracket
    /// is a rectangle blurred by all of them. The true gap is what was felt plus the depth of the
    /// hollow.
    ///
    /// # Errors
    /// [`FeelerError::Negative`] for a tolerance, hand, depth or uncertainty below zero;
    /// [`FeelerError::Quantity`] for a gap that cannot be a lash, [`FeelerError::Tolerance`] for
    /// uncertainties no lash has.
    ///
    /// # Source
    /// JCGM 100:2008, 4.3.7 (rectangle) and 5.1.2 (combination).
    ///
    /// ```
    /// use lashwork::feeler::{Hollow, GaugeUse, Reading};
    /// use lashwork::quantity::Marked;
    /// let reading: Reading = "0.05 mm does not go".parse()?;
    /// let hollow = Hollow {
    ///     depth: Marked::parse("0.03 mm")?,
    ///     uncertainty: Marked::parse("0.01 mm")?,
    /// };
    /// let worn = reading.estimate_with(&GaugeUse::default(), Some(hollow))?.estimate;
    /// assert_eq!(worn.high().map(|h| h.mm()), Some(0.08));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn estimate_with(
        &self,
        used: &GaugeUse,
        hollow: Option<Hollow>,
    ) -> Result<ReadingEstimate, FeelerError> {
        let unstated = used.unstated.unwrap_or_else(assumed_leaf_tolerance);
        let joint = used.joint.unwrap_or_else(assumed_joint);
        let depth = match hollow {
            Some(h) => {
                not_negative("the depth of the hollow", h.depth)?;
                not_negative("the uncertainty of the hollow", h.uncertainty)?;
                h.depth.nominal()
            }
            None => Nominal::ZERO,
        };
        let end = |stack: &Stack| -> Result<Lash, QuantityError> {
            Lash::from_nominal(stack.thickness().plus(depth)?)
        };
        let rectangle = |stack: &Stack| -> Result<f64, FeelerError> {
            Ok(stack.tolerance(used.combination, unstated, joint)? / libm::sqrt(3.0))
        };
        let (low, high, leaf_u) = match self {
            Self::Between { goes, refuses } => (
                Some(end(goes)?),
                Some(end(refuses)?),
                rectangle(goes)?.max(rectangle(refuses)?),
            ),
            Self::Goes(s) => (Some(end(s)?), None, rectangle(s)?),
            Self::Refuses(s) => (None, Some(end(s)?), rectangle(s)?),
            Self::Drags { stack, .. } => {
                let centre = Some(end(stack)?);
                (centre, centre, rectangle(stack)?)
            }
        };
        let (feel, hand, drag) = if let Self::Drags { spread, .. } = self {
            let taken = spread.unwrap_or_else(assumed_drag);
            (taken, None, spread.is_none().then_some(taken))
        } else {
            let taken = used.hand.unwrap_or_else(assumed_hand);
            not_negative("the uncertainty of the hand", taken)?;
            (taken, used.hand.is_none().then_some(taken), None)
        };
        let hollow_u = hollow.map_or(0.0, |h| h.uncertainty.mm());
        let u = Uncertainty::from_mm(libm::hypot(libm::hypot(leaf_u, feel.mm()), hollow_u))?;
        let is_assumed = used.unstated.is_none() && self.stacks().any(Stack::needs_default);
        Ok(ReadingEstimate {
            estimate: Estimate::of(low, high, u)?,
            assumed: Assumed {
                tolerance: is_assumed.then_some(unstated),
                hand,
                drag,
                joint: (used.joint.is_none() && self.has_stack()).then_some(joint),
            },
        })
    }
}
