//! The gap a reading stands for.

use super::leaf::not_negative;
use super::{Combination, FeelerError, Reading, Stack, assumed_leaf_tolerance};
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

/// What is taken for the thickness tolerances of leaves.
///
/// ```
/// use lashwork::feeler::{Combination, LeafTolerances};
/// assert_eq!(LeafTolerances::default().combination, Combination::WorstCase);
/// assert!(LeafTolerances::default().unstated.is_none());
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct LeafTolerances {
    /// How those of a stack add up.
    pub combination: Combination,
    /// Half width of the tolerance of a leaf that states none; if not stated,
    /// [`assumed_leaf_tolerance`], and the estimate says so.
    pub unstated: Option<Marked>,
}

/// The estimate a reading leads to, and what had to be assumed for it.
///
/// ```
/// use lashwork::feeler::{Reading, assumed_leaf_tolerance};
/// use lashwork::tolerance::Verdict;
/// let reading: Reading = "0.12 mm goes, 0.15 mm does not".parse()?;
/// let found = reading.estimate()?;
/// assert_eq!(found.judged_by(&"0.006 in to 0.010 in".parse()?).verdict, Verdict::Below);
/// assert_eq!(found.assumed_tolerance, Some(assumed_leaf_tolerance()));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[must_use]
pub struct ReadingEstimate {
    /// The gap: its lower end is included; without one nothing goes, and the valve may even be held
    /// open. Its upper end is excluded; without one everything goes. Both are equal after a light drag.
    pub estimate: Estimate<Lash>,
    /// The tolerance that was taken for leaves that state none, if there are such leaves and nothing
    /// was said of them.
    pub assumed_tolerance: Option<Marked>,
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
        self.estimate_with(&LeafTolerances::default(), None)
    }

    /// The gap the reading stands for. No memory is allocated.
    ///
    /// A leaf tolerance `a` is the half width of a rectangle: `u = a / sqrt 3`. Of two ends the
    /// larger `u` stands for both, which is conservative. The spread of a light drag and the
    /// uncertainty of the hollow join by the root of the sum of squares. The true gap is what was
    /// felt plus the depth of the hollow.
    ///
    /// # Errors
    /// [`FeelerError::Negative`] for a tolerance, depth or uncertainty below zero;
    /// [`FeelerError::Quantity`] for a gap that cannot be a lash, [`FeelerError::Tolerance`] for
    /// uncertainties no lash has.
    ///
    /// # Source
    /// JCGM 100:2008, 4.3.7 (rectangle) and 5.1.2 (combination).
    ///
    /// ```
    /// use lashwork::feeler::{Hollow, LeafTolerances, Reading};
    /// use lashwork::quantity::Marked;
    /// let reading: Reading = "0.05 mm does not go".parse()?;
    /// let hollow = Hollow {
    ///     depth: Marked::parse("0.03 mm")?,
    ///     uncertainty: Marked::parse("0.01 mm")?,
    /// };
    /// let worn = reading.estimate_with(&LeafTolerances::default(), Some(hollow))?.estimate;
    /// assert_eq!(worn.high().map(|h| h.mm()), Some(0.08));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn estimate_with(
        &self,
        tolerances: &LeafTolerances,
        hollow: Option<Hollow>,
    ) -> Result<ReadingEstimate, FeelerError> {
        let unstated = tolerances.unstated.unwrap_or_else(assumed_leaf_tolerance);
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
            Ok(stack.tolerance(tolerances.combination, unstated)? / libm::sqrt(3.0))
        };
        let (low, high, leaf_u, spread, is_unstated) = match self {
            Self::Between { goes, refuses } => (
                Some(end(goes)?),
                Some(end(refuses)?),
                rectangle(goes)?.max(rectangle(refuses)?),
                0.0,
                goes.needs_default() || refuses.needs_default(),
            ),
            Self::Goes(s) => (Some(end(s)?), None, rectangle(s)?, 0.0, s.needs_default()),
            Self::Refuses(s) => (None, Some(end(s)?), rectangle(s)?, 0.0, s.needs_default()),
            Self::Drags { stack, spread } => {
                let centre = Some(end(stack)?);
                let u = rectangle(stack)?;
                (centre, centre, u, spread.mm(), stack.needs_default())
            }
        };
        let hollow_u = hollow.map_or(0.0, |h| h.uncertainty.mm());
        let u = Uncertainty::from_mm(libm::hypot(libm::hypot(leaf_u, spread), hollow_u))?;
        let is_assumed = is_unstated && tolerances.unstated.is_none();
        Ok(ReadingEstimate {
            estimate: Estimate::of(low, high, u)?,
            assumed_tolerance: is_assumed.then_some(unstated),
        })
    }
}
