//! What joins two throttles.

use serde::Serialize;

/// What joins two throttles.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum JoinedBy {
    /// A screw that moves everything beyond it, seen from the reference.
    Screw {
        /// Whether clockwise opens what is beyond it, if that is known.
        clockwise_opens: Option<bool>,
    },
    /// A common shaft: nothing to adjust.
    Rigidly,
}

/// Two throttles and what joins them; which of the two is given first does not matter.
///
/// ```
/// use lashwork::mixture::balance::{JoinedBy, Joint};
/// let screw = Joint::screw(0, 1);
/// assert_eq!(screw.by, JoinedBy::Screw { clockwise_opens: None });
/// assert_eq!(Joint::rigid(2, 3).by, JoinedBy::Rigidly);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Joint {
    /// The two throttles, counted from 0.
    pub between: [usize; 2],
    /// What joins them.
    pub by: JoinedBy,
}

impl Joint {
    /// An adjusting screw of which it is not known which way opens.
    #[must_use]
    pub const fn screw(one: usize, other: usize) -> Self {
        Self {
            between: [one, other],
            by: JoinedBy::Screw {
                clockwise_opens: None,
            },
        }
    }

    /// A common shaft.
    #[must_use]
    pub const fn rigid(one: usize, other: usize) -> Self {
        Self {
            between: [one, other],
            by: JoinedBy::Rigidly,
        }
    }
}
