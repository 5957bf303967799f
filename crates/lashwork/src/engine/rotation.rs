//! Which way the crank turns and which end cylinders are counted from; neither means anything
//! without the end it is seen from.

use alloc::string::String;
use serde::Serialize;

/// A sense of rotation as it looks to somebody facing the engine.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Sense {
    /// As the hands of a clock.
    Clockwise,
    /// Against the hands of a clock.
    Anticlockwise,
}

/// An end of the engine.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum End {
    /// The end away from the power output, as a rule with the pulley; the front of most cars.
    Free,
    /// The end that gives the power: flywheel, gearbox, propeller.
    Output,
}

/// The running direction, with the end it is seen from.
///
/// ```
/// use lashwork::engine::{End, Rotation, Sense};
/// let running = Rotation { sense: Sense::Clockwise, seen_from: End::Free };
/// assert_eq!(running.seen_from_end(End::Output).sense, Sense::Anticlockwise);
/// assert_eq!(running.seen_from_end(End::Free), running);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Rotation {
    /// The sense of rotation.
    pub sense: Sense,
    /// The end from which it is seen.
    pub seen_from: End,
}

impl Rotation {
    /// The same turning as it looks from an end; from the other end the sense is the opposite.
    #[must_use]
    pub fn seen_from_end(self, end: End) -> Self {
        let sense = match (self.seen_from == end, self.sense) {
            (true, same) => same,
            (false, Sense::Clockwise) => Sense::Anticlockwise,
            (false, Sense::Anticlockwise) => Sense::Clockwise,
        };
        Self {
            sense,
            seen_from: end,
        }
    }
}

/// How the cylinders are numbered.
///
/// ```
/// use lashwork::engine::Numbering;
/// let (from_free, from_output) = (Numbering::FromFreeEnd, Numbering::FromOutputEnd);
/// assert_eq!(from_free.convert(1, 6, &from_output), Some(6));
/// assert_eq!(from_free.convert(7, 6, &from_output), None);
/// ```
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Numbering {
    /// Cylinder 1 is at the end away from the power output.
    FromFreeEnd,
    /// Cylinder 1 is at the output end.
    FromOutputEnd,
    /// Neither; the maker's rule in words.
    Stated(String),
}

impl Numbering {
    /// The number that cylinder `number` of an inline engine of `count` has under another
    /// numbering: No. 1 from one end is No. `count` from the other.
    ///
    /// None if the engine has no such number, or if a numbering is only stated in words (unless
    /// both are the same words).
    #[must_use]
    pub fn convert(&self, number: usize, count: usize, to: &Self) -> Option<usize> {
        if number == 0 || number > count {
            return None;
        }
        match (self, to) {
            (from, to) if from == to => Some(number),
            (Self::Stated(_), _) | (_, Self::Stated(_)) => None,
            _ => Some(count + 1 - number),
        }
    }
}
