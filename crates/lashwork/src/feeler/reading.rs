//! What was felt, and the gap it stands for.

use super::leaf::not_negative;
use super::{Combination, FeelerError, Leaf, LeafSet, Stack};
use crate::quantity::{Lash, Marked, Nominal, QuantityError};
use alloc::string::ToString;
use alloc::vec::Vec;
use core::fmt;
use serde::Serialize;

/// What a feeler gauge said about one gap.
///
/// Made only by the constructors, which refuse what contradicts itself.
///
/// ```
/// use lashwork::feeler::{Leaf, Reading, Stack};
/// use lashwork::quantity::Marked;
/// let one = |text| Stack::new(vec![Leaf::new(Marked::parse(text).unwrap())]);
/// let reading = Reading::between(one("0.18 mm")?, one("0.23 mm")?)?;
/// assert_eq!(reading.to_string(), "0.18 mm goes, 0.23 mm does not");
/// let wrong = Reading::between(one("0.006 in")?, one("0.15 mm")?).unwrap_err();
/// assert_eq!(wrong.to_string(), "0.006 in goes but 0.15 mm does not, though it is no thicker");
/// # Ok::<(), lashwork::feeler::FeelerError>(())
/// ```
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Reading {
    /// One goes, a thicker one does not: the gap is in `[goes, refuses)`.
    #[non_exhaustive]
    Between {
        /// The thickest that goes.
        goes: Stack,
        /// The thinnest that does not.
        refuses: Stack,
    },
    /// The thickest that was tried goes: the gap is at least that.
    Goes(Stack),
    /// The thinnest that was tried does not go: the gap is less than that, possibly none, but the
    /// reading never says zero.
    Refuses(Stack),
    /// Moves with a light drag: the gap is that thickness, give or take how well drag can be felt.
    #[non_exhaustive]
    Drags {
        /// What drags.
        stack: Stack,
        /// Standard uncertainty of judging the drag.
        spread: Marked,
    },
}

/// A worn hollow that a flat leaf bridges, so that the leaf feels less than the gap in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Hollow {
    /// Its depth below the surface the leaf lies on; zero or more.
    pub depth: Marked,
    /// Standard uncertainty of the depth; zero or more.
    pub uncertainty: Marked,
}

/// The gap a reading stands for, with its ends in millimetres.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Felt {
    /// Least gap, included; none if nothing goes: then the valve may even be held open.
    pub low: Option<Lash>,
    /// Upper end, excluded; none if everything goes. Equal to `low` after a light drag.
    pub high: Option<Lash>,
    /// Standard uncertainty of an end (after a light drag, of the gap) in millimetres.
    pub standard_uncertainty_mm: f64,
    /// True if a leaf that mattered states no tolerance, so the default stood in for it.
    pub assumed_tolerance: bool,
}

impl Reading {
    /// One goes, a thicker one does not.
    ///
    /// # Errors
    /// [`FeelerError::Contradiction`] if what goes is as thick as, or thicker than, what does not.
    pub fn between(goes: Stack, refuses: Stack) -> Result<Self, FeelerError> {
        if goes.thickness() >= refuses.thickness() {
            return Err(FeelerError::Contradiction {
                goes: goes.to_string(),
                refuses: refuses.to_string(),
            });
        }
        Ok(Self::Between { goes, refuses })
    }

    /// The thickest that was tried goes.
    #[must_use]
    pub const fn goes(stack: Stack) -> Self {
        Self::Goes(stack)
    }

    /// The thinnest that was tried does not go.
    #[must_use]
    pub const fn refuses(stack: Stack) -> Self {
        Self::Refuses(stack)
    }

    /// Moves with a light drag, judged with a standard uncertainty of `spread`.
    ///
    /// # Errors
    /// [`FeelerError::NotPositive`] for a spread of zero or less: nobody feels drag exactly.
    ///
    /// ```
    /// use lashwork::feeler::{Leaf, Reading, Stack};
    /// use lashwork::quantity::Marked;
    /// let stack = Stack::new(vec![Leaf::new(Marked::parse("0.10 mm")?)])?;
    /// let drag = Reading::drags(stack.clone(), Marked::parse("0.01 mm")?)?;
    /// assert_eq!(drag.to_string(), "0.10 mm drags (spread 0.01 mm)");
    /// assert!(Reading::drags(stack, Marked::parse("0 mm")?).is_err());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn drags(stack: Stack, spread: Marked) -> Result<Self, FeelerError> {
        if spread.nominal() <= Nominal::ZERO {
            return Err(FeelerError::NotPositive {
                what: "the spread of a light drag",
                got: spread.to_string(),
            });
        }
        Ok(Self::Drags { stack, spread })
    }

    /// The leaves that it rests on; of two stacks the one that goes.
    #[must_use]
    pub const fn stack(&self) -> &Stack {
        let (Self::Between { goes: stack, .. }
        | Self::Goes(stack)
        | Self::Refuses(stack)
        | Self::Drags { stack, .. }) = self;
        stack
    }

    /// The leaves it names, as a set; each thickness once.
    ///
    /// # Errors
    /// [`FeelerError`] of a leaf that cannot exist.
    ///
    /// ```
    /// use lashwork::feeler::{Leaf, Reading, Stack};
    /// use lashwork::quantity::Marked;
    /// let one = |text| Stack::new(vec![Leaf::new(Marked::parse(text).unwrap())]);
    /// let reading = Reading::between(one("0.12 mm")?, one("0.15 mm")?)?;
    /// assert_eq!(reading.leaf_set()?.leaves().len(), 2);
    /// assert!(!reading.has_stack());
    /// # Ok::<(), lashwork::feeler::FeelerError>(())
    /// ```
    pub fn leaf_set(&self) -> Result<LeafSet, FeelerError> {
        let mut once: Vec<Leaf> = Vec::new();
        for leaf in self.stacks().flat_map(Stack::leaves) {
            if once.iter().all(|seen| seen.nominal() != leaf.nominal()) {
                once.push(*leaf);
            }
        }
        LeafSet::new(once)
    }

    /// Whether several leaves were tried together.
    #[must_use]
    pub fn has_stack(&self) -> bool {
        self.stacks().any(|stack| stack.leaves().len() > 1)
    }

    /// The stack that goes or drags, and the one that does not go.
    fn stacks(&self) -> impl Iterator<Item = &Stack> {
        let other = match self {
            Self::Between { refuses, .. } => Some(refuses),
            _ => None,
        };
        core::iter::once(self.stack()).chain(other)
    }

    /// Not even the thinnest leaf of the set goes.
    ///
    /// ```
    /// use lashwork::feeler::{Leaf, LeafSet, Reading};
    /// use lashwork::quantity::Marked;
    /// let set = LeafSet::new(vec![Leaf::new(Marked::parse("0.05 mm")?)])?;
    /// assert_eq!(Reading::nothing_goes(&set).to_string(), "0.05 mm does not go");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn nothing_goes(set: &LeafSet) -> Self {
        Self::Refuses(Stack::of_checked(set.smallest()))
    }

    /// Even the thickest leaf of the set goes.
    ///
    /// ```
    /// use lashwork::feeler::{Leaf, LeafSet, Reading};
    /// use lashwork::quantity::Marked;
    /// let set = LeafSet::new(vec![Leaf::new(Marked::parse("1.00 mm")?)])?;
    /// assert_eq!(Reading::everything_goes(&set).to_string(), "1.00 mm goes");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn everything_goes(set: &LeafSet) -> Self {
        Self::Goes(Stack::of_checked(set.largest()))
    }

    /// The gap the reading stands for.
    ///
    /// A leaf tolerance `a` is the half width of a rectangle: `u = a / sqrt 3`. Of two ends the
    /// larger `u` stands for both, which is conservative. The spread of a light drag and the
    /// uncertainty of the hollow join by the root of the sum of squares. The true gap is what was
    /// felt plus the depth of the hollow.
    ///
    /// # Errors
    /// [`FeelerError::Negative`] for a default tolerance, depth or uncertainty below zero;
    /// [`FeelerError::Quantity`] for a gap that cannot be a lash.
    ///
    /// # Source
    /// JCGM 100:2008, 4.3.7 (rectangle) and 5.1.2 (combination).
    ///
    /// ```
    /// use lashwork::feeler::{Combination, Hollow, Leaf, LeafSet, Reading, assumed_leaf_tolerance};
    /// use lashwork::quantity::Marked;
    /// let set = LeafSet::new(vec![Leaf::new(Marked::parse("0.05 mm")?)])?;
    /// let t = assumed_leaf_tolerance();
    /// let tight = Reading::nothing_goes(&set).felt(Combination::WorstCase, t, None)?;
    /// assert!(tight.low.is_none());
    /// assert_eq!(tight.high.map(|h| h.mm()), Some(0.05));
    /// assert!(tight.assumed_tolerance);
    /// let hollow = Hollow {
    ///     depth: Marked::parse("0.03 mm")?,
    ///     uncertainty: Marked::parse("0.01 mm")?,
    /// };
    /// let worn = Reading::nothing_goes(&set).felt(Combination::WorstCase, t, Some(hollow))?;
    /// assert_eq!(worn.high.map(|h| h.mm()), Some(0.08));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn felt(
        &self,
        combination: Combination,
        default_tolerance: Marked,
        hollow: Option<Hollow>,
    ) -> Result<Felt, FeelerError> {
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
            Ok(stack.tolerance(combination, default_tolerance)? / libm::sqrt(3.0))
        };
        let (low, high, leaf_u, spread, assumed) = match self {
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
        Ok(Felt {
            low,
            high,
            standard_uncertainty_mm: libm::hypot(libm::hypot(leaf_u, spread), hollow_u),
            assumed_tolerance: assumed,
        })
    }
}

impl fmt::Display for Reading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Between { goes, refuses } => write!(f, "{goes} goes, {refuses} does not"),
            Self::Goes(stack) => write!(f, "{stack} goes"),
            Self::Refuses(stack) => write!(f, "{stack} does not go"),
            Self::Drags { stack, spread } => write!(f, "{stack} drags (spread {spread})"),
        }
    }
}
