//! Why a leaf, a set, a stack or a reading was refused.

use crate::Refusal;
use crate::quantity::{Marked, QuantityError, Quoted};
use crate::tolerance::ToleranceError;
use alloc::borrow::Cow;
use alloc::string::String;

/// Why a leaf, a set, a stack or a reading was refused.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::feeler::LeafSet;
/// assert_eq!(LeafSet::new(Vec::new()).unwrap_err().code(), "feeler.no-leaves");
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FeelerError {
    /// A set or a stack without a leaf measures nothing.
    #[error("a {what} needs at least one leaf")]
    NoLeaves {
        /// The set or the stack.
        what: &'static str,
    },
    /// A leaf has a thickness above zero.
    #[error("a leaf marked {leaf} cannot exist: its thickness must be above zero")]
    LeafNotPositive {
        /// The mark as typed.
        leaf: Marked,
    },
    /// A stack of more leaves of one thickness than there are.
    #[error("a stack of {used} leaves of {leaf}, and the gauge has {held} of it")]
    NotSoMany {
        /// The leaf.
        leaf: Marked,
        /// How often the stack names it.
        used: usize,
        /// How many there are.
        held: usize,
    },
    /// Two leaves of a set are the same thickness to the nanometre.
    #[error("the leaf {second} is as thick as the leaf {first} of the same set")]
    LeafTwice {
        /// One of them, as typed.
        first: Marked,
        /// The other, as typed.
        second: Marked,
    },
    /// A length that cannot be below zero.
    #[error("{what} is {got}, below zero")]
    Negative {
        /// The length.
        what: &'static str,
        /// As typed.
        got: String,
    },
    /// A length that must be above zero.
    #[error("{what} is {got}, not above zero")]
    NotPositive {
        /// The length.
        what: &'static str,
        /// As typed.
        got: String,
    },
    /// What goes is at least as thick as what does not.
    #[error("{goes} goes but {refuses} does not, although it is no thicker")]
    Contradiction {
        /// The stack that goes, as typed.
        goes: String,
        /// The stack that does not, as typed.
        refuses: String,
    },
    /// No stack comes near enough to the target.
    #[error("no stack comes within {within} of {target}; the nearest is {nearest}, off by {off}")]
    NoStack {
        /// The thickness wanted.
        target: String,
        /// How near it had to be.
        within: String,
        /// The nearest stack.
        nearest: String,
        /// Its thickness minus the target.
        off: String,
    },
    /// The set is larger than the exact search accepts.
    #[error("a set of {leaves} leaves is too large to search, at most {max}")]
    SetTooLarge {
        /// Leaves in the set.
        leaves: usize,
        /// Most that are accepted.
        max: usize,
    },
    /// The number of leaves a stack may have is out of range.
    #[error("a stack of up to {got} leaves cannot be searched, 1 to {max} can")]
    LeafCount {
        /// The number asked for.
        got: u8,
        /// Most that are accepted.
        max: u8,
    },
    /// A text that is not a reading.
    #[error("{} does not say what goes and what does not", Quoted(.text))]
    ReadingText {
        /// The text as it was written.
        text: String,
    },
    /// A length is out of its range.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
    /// An uncertainty is out of its range.
    #[error(transparent)]
    Tolerance(#[from] ToleranceError),
}

impl Refusal for FeelerError {
    fn code(&self) -> &'static str {
        match self {
            Self::NoLeaves { .. } => "feeler.no-leaves",
            Self::LeafNotPositive { .. } => "feeler.leaf-not-positive",
            Self::LeafTwice { .. } => "feeler.leaf-twice",
            Self::NotSoMany { .. } => "feeler.not-so-many",
            Self::Negative { .. } => "feeler.negative",
            Self::NotPositive { .. } => "feeler.not-positive",
            Self::Contradiction { .. } => "feeler.contradiction",
            Self::NoStack { .. } => "feeler.no-stack",
            Self::SetTooLarge { .. } => "feeler.set-too-large",
            Self::LeafCount { .. } => "feeler.leaf-count",
            Self::ReadingText { .. } => "feeler.reading",
            Self::Quantity(inner) => inner.code(),
            Self::Tolerance(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        match self {
            Self::NoLeaves { .. } => Cow::Borrowed("list every leaf with its mark and unit"),
            Self::LeafNotPositive { .. } => {
                Cow::Borrowed("write the thickness printed on the leaf")
            }
            Self::LeafTwice { .. } => Cow::Borrowed(
                "list each thickness once, even if two leaves in different units share it",
            ),
            Self::NotSoMany { .. } => Cow::Borrowed(
                "name the leaves that lay together; list a leaf twice in the gauge if there are two of it",
            ),
            Self::Negative { .. } => Cow::Borrowed("give zero or more"),
            Self::NotPositive { .. } => Cow::Borrowed("give more than zero"),
            Self::Contradiction { .. } => Cow::Borrowed(
                "try both leaves again; one of the two was written down or felt wrongly",
            ),
            Self::NoStack { .. } => {
                Cow::Borrowed("allow a larger error or more leaves, or add a leaf to the set")
            }
            Self::SetTooLarge { max, .. } => {
                Cow::Owned(alloc::format!("search {max} leaves or fewer at a time"))
            }
            Self::LeafCount { max, .. } => Cow::Owned(alloc::format!("ask for 1 to {max} leaves")),
            Self::ReadingText { .. } => Cow::Borrowed(
                "write \"0.12 mm goes, 0.15 mm does not\", \"0.12 mm goes\", \"0.15 mm does not go\" \"0.10 mm drags\" or \"0.10 mm drags (spread 0.01 mm)\"",
            ),
            Self::Quantity(inner) => inner.hint(),
            Self::Tolerance(inner) => inner.hint(),
        }
    }
}
