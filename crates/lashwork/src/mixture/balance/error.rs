//! Why throttles cannot be balanced.

use super::Linkage;
use crate::Refusal;
use crate::quantity::{AbsolutePressure, QuantityError};
use crate::tolerance::ToleranceError;
use alloc::borrow::Cow;

/// Why throttles cannot be balanced.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::mixture::balance::{Joint, Linkage};
/// let refused = Linkage::new(2, &[0, 1], &[Joint::screw(0, 1)]).unwrap_err();
/// assert_eq!(refused[0].code(), "mixture.two-references");
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum BalanceError {
    /// Too few throttles to balance, or more than any engine has.
    #[error("{got} throttles are not {} to {}", Linkage::FEWEST, Linkage::MOST)]
    Count {
        /// The refused number.
        got: usize,
    },
    /// No throttle to which the others are set.
    #[error("no throttle is the reference")]
    NoReference,
    /// Two throttles to which the others are set.
    #[error("throttles {} and {} are both the reference", .first + 1, .second + 1)]
    TwoReferences {
        /// One of them, from 0.
        first: usize,
        /// The other.
        second: usize,
    },
    /// A throttle that is not there.
    #[error("throttle {} is not among {count}", .throttle + 1)]
    NoSuchThrottle {
        /// Which, from 0.
        throttle: usize,
        /// How many there are.
        count: usize,
    },
    /// A joint with one throttle.
    #[error("joint {} joins a throttle to itself", .joint + 1)]
    JoinedToItself {
        /// Which, from 0.
        joint: usize,
    },
    /// A joint that closes a loop: two ways to one throttle.
    #[error("joint {} between throttles {} and {} closes a loop", .joint + 1, .one + 1, .other + 1)]
    Loop {
        /// Which, from 0.
        joint: usize,
        /// One of its throttles.
        one: usize,
        /// The other.
        other: usize,
    },
    /// A throttle that no joint leads to.
    #[error("no joint leads from the reference to throttle {}", .throttle + 1)]
    NoPath {
        /// Which, from 0.
        throttle: usize,
    },
    /// A joint that is not there, or is no screw.
    #[error("joint {} is no screw of this linkage", .joint + 1)]
    NoSuchScrew {
        /// Which, from 0.
        joint: usize,
    },
    /// A throttle without a reading.
    #[error("throttle {} has no reading", .throttle + 1)]
    NotRead {
        /// Which, from 0.
        throttle: usize,
    },
    /// Two lists of readings for one throttle.
    #[error("throttle {} has readings in two places", .throttle + 1)]
    ReadTwice {
        /// Which, from 0.
        throttle: usize,
    },
    /// Neither stated how far the gauge scatters, nor a throttle read twice.
    #[error("how far the gauge scatters is neither stated nor to be seen from repeated readings")]
    NoScatter,
    /// More vacuum than there is air.
    #[error("a vacuum of {shown} kPa at throttle {} is more than the {ambient} around", .throttle + 1)]
    BeyondAmbient {
        /// Which, from 0.
        throttle: usize,
        /// What was read, in kilopascals.
        shown: f64,
        /// The air around.
        ambient: AbsolutePressure,
    },
    /// A trial with no turn.
    #[error("trial {} is no turn", .trial + 1)]
    NoTurn {
        /// Which, from 0.
        trial: usize,
    },
    /// Trials that show the reverse of what was stated.
    #[error("the trials of joint {} show the reverse of the stated sense", .joint + 1)]
    AgainstSense {
        /// Which, from 0.
        joint: usize,
    },
    /// A limit that is not above nought.
    #[error("an allowed difference of {got} is not above nought")]
    Allowed {
        /// The refused number, in the unit of the readings.
        got: f64,
    },
    /// A reading that cannot stand in a ratio: no flow, or no air left behind the throttle.
    #[error("the reading of throttle {} leaves nothing to compare", .throttle + 1)]
    Nothing {
        /// Which, from 0.
        throttle: usize,
    },
    /// A share that cannot be: not above nought or not finite.
    #[error("a share of {got} is not above 0 and below 1")]
    Share {
        /// The refused number.
        got: f64,
    },
    /// A quantity that came out outside what it can be.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
    /// An estimate or a limit that cannot be.
    #[error(transparent)]
    Tolerance(#[from] ToleranceError),
}

impl Refusal for BalanceError {
    fn code(&self) -> &'static str {
        match self {
            Self::Count { .. } => "mixture.throttle-count",
            Self::NoReference => "mixture.no-reference",
            Self::TwoReferences { .. } => "mixture.two-references",
            Self::NoSuchThrottle { .. } => "mixture.no-such-throttle",
            Self::JoinedToItself { .. } => "mixture.joined-to-itself",
            Self::Loop { .. } => "mixture.linkage-loop",
            Self::NoPath { .. } => "mixture.no-path",
            Self::NoSuchScrew { .. } => "mixture.no-such-screw",
            Self::NotRead { .. } => "mixture.throttle-not-read",
            Self::ReadTwice { .. } => "mixture.throttle-read-twice",
            Self::NoScatter => "mixture.no-scatter",
            Self::BeyondAmbient { .. } => "mixture.vacuum-above-ambient",
            Self::NoTurn { .. } => "mixture.no-turn",
            Self::AgainstSense { .. } => "mixture.against-sense",
            Self::Allowed { .. } => "mixture.allowed-difference",
            Self::Nothing { .. } => "mixture.nothing-to-compare",
            Self::Share { .. } => "mixture.share",
            Self::Quantity(inner) => inner.code(),
            Self::Tolerance(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::Count { .. } => "give 2 to 12 throttles",
            Self::NoReference | Self::TwoReferences { .. } => {
                "name the one throttle to which the others are set: the one that has no screw of its own"
            }
            Self::NoSuchThrottle { .. } => "count the throttles from 0 in the order they are given",
            Self::JoinedToItself { .. } => "name the two throttles on either side of it",
            Self::Loop { .. } => "leave out the joint that does not carry the motion",
            Self::NoPath { .. } => {
                "name what joins it; a throttle with a stop screw alone is joined to the reference by that screw"
            }
            Self::NoSuchScrew { .. } => "count the joints from 0 and name one that is a screw",
            Self::NotRead { .. } => "read every throttle at the same speed of the engine",
            Self::ReadTwice { .. } => "put all readings of a throttle in one list",
            Self::NoScatter => {
                "read at least one throttle twice, or state by how much single readings differ"
            }
            Self::BeyondAmbient { .. } => {
                "check the unit, the gauge's zero and the altitude; there is no more vacuum than air"
            }
            Self::NoTurn { .. } => "turn the screw by a known part of a turn and read again",
            Self::AgainstSense { .. } => {
                "check which way the screw was turned and whether clockwise opens the throttles beyond it"
            }
            Self::Allowed { .. } => "give the book's greatest difference",
            Self::Nothing { .. } => {
                "check the reading: the engine runs on every cylinder only if air goes through"
            }
            Self::Share { .. } => "give a fraction such as 0.05 for 5 %",
            Self::Quantity(inner) => return inner.hint(),
            Self::Tolerance(inner) => return inner.hint(),
        })
    }
}
