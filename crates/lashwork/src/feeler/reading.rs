//! What a feeler gauge said about a gap.

use super::{FeelerError, Leaf, LeafSet, Stack};
use crate::quantity::{Marked, Nominal};
use alloc::string::ToString;
use alloc::vec::Vec;
use core::fmt;
use core::str::FromStr;
use serde::Serialize;

/// What a feeler gauge said about one gap.
///
/// Made only by the constructors, which refuse what contradicts itself. What it shows it also reads,
/// the leaves then being without a stated tolerance.
///
/// ```
/// use lashwork::feeler::Reading;
/// let reading = Reading::between("0.18 mm".parse()?, "0.23 mm".parse()?)?;
/// assert_eq!(reading.to_string(), "0.18 mm goes, 0.23 mm does not");
/// assert_eq!("0.18 mm goes, 0.23 mm does not".parse(), Ok(reading));
/// let wrong = "0.006 in goes, 0.15 mm does not".parse::<Reading>().unwrap_err();
/// assert_eq!(wrong.to_string(), "0.006 in goes but 0.15 mm does not, although it is no thicker");
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
        /// Standard uncertainty of judging the drag, if it is stated.
        spread: Option<Marked>,
    },
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

    /// Moves with a light drag, judged with a standard uncertainty of `spread`; where that is not stated,
    /// [`assumed_drag`](super::assumed_drag) is taken, and to be listed.
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
    /// assert_eq!(Reading::drags(stack.clone(), None)?.to_string(), "0.10 mm drags");
    /// assert!(Reading::drags(stack, Marked::parse("0 mm")?).is_err());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn drags(stack: Stack, spread: impl Into<Option<Marked>>) -> Result<Self, FeelerError> {
        let spread = spread.into();
        if let Some(spread) = spread
            && spread.nominal() <= Nominal::ZERO
        {
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
    pub(super) fn stacks(&self) -> impl Iterator<Item = &Stack> {
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
}

const GOES: &str = " goes";
const DOES_NOT: &str = " does not";
const DOES_NOT_GO: &str = " does not go";
const DRAGS: &str = " drags";
const SPREAD: &str = " (spread ";

impl fmt::Display for Reading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Between { goes, refuses } => write!(f, "{goes}{GOES}, {refuses}{DOES_NOT}"),
            Self::Goes(stack) => write!(f, "{stack}{GOES}"),
            Self::Refuses(stack) => write!(f, "{stack}{DOES_NOT_GO}"),
            Self::Drags { stack, spread } => {
                write!(f, "{stack}{DRAGS}")?;
                match spread {
                    Some(spread) => write!(f, "{SPREAD}{spread})"),
                    None => Ok(()),
                }
            }
        }
    }
}

/// Reads what `Display` writes: `0.12 mm goes, 0.15 mm does not`, either half alone (`0.15 mm does not
/// go`), `0.10 mm drags`, `0.10 mm drags (spread 0.01 mm)`.
impl FromStr for Reading {
    type Err = FeelerError;

    fn from_str(text: &str) -> Result<Self, FeelerError> {
        let words = text.trim();
        if let Some((goes, rest)) = words.split_once(GOES)
            && let Some(refuses) = rest
                .strip_prefix(',')
                .and_then(|w| w.strip_suffix(DOES_NOT))
        {
            return Self::between(goes.parse()?, refuses.parse()?);
        }
        if let Some(stack) = words.strip_suffix(DOES_NOT_GO) {
            return Ok(Self::Refuses(stack.parse()?));
        }
        if let Some(stack) = words.strip_suffix(GOES) {
            return Ok(Self::Goes(stack.parse()?));
        }
        if let Some(stack) = words.strip_suffix(DRAGS) {
            return Self::drags(stack.parse()?, None);
        }
        if let Some((stack, rest)) = words.split_once(DRAGS)
            && let Some(spread) = rest.strip_prefix(SPREAD).and_then(|w| w.strip_suffix(')'))
        {
            return Self::drags(stack.parse()?, Marked::parse(spread)?);
        }
        Err(FeelerError::ReadingText {
            text: text.to_string(),
        })
    }
}
