//! Why an idle curve cannot be fitted or used.

use super::IdleCurve;
use crate::Refusal;
use crate::quantity::QuantityError;
use crate::tolerance::ToleranceError;
use alloc::borrow::Cow;

/// Why an idle curve cannot be fitted or used.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::mixture::idle::{IdleCurve, MixtureScrew};
/// let refused = IdleCurve::fitted(&[], None, MixtureScrew::Fuel).unwrap_err();
/// assert_eq!(refused.code(), "mixture.idle-readings");
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum IdleError {
    /// Too few readings for a curve, or too many for one warm idle.
    #[error("{got} readings are not {} to {}", IdleCurve::FEWEST, IdleCurve::MOST)]
    Readings {
        /// How many.
        got: usize,
    },
    /// Too few places for a parabola.
    #[error("the screw stood at {got} different places, a curve needs 3")]
    Places {
        /// How many.
        got: usize,
    },
    /// An engine that stands still.
    #[error("reading {} is of an engine that stands still", .reading + 1)]
    Stalled {
        /// Which, from 0.
        reading: usize,
    },
    /// A fall or a rise that is not above nought.
    #[error("a change of speed of {got} rpm is not above nought")]
    Change {
        /// The refused number.
        got: f64,
    },
    /// Too few points to draw a curve.
    #[error("{got} points draw no curve")]
    Points {
        /// How many.
        got: usize,
    },
    /// No best place to go by.
    #[error("the readings do not show where the speed is highest")]
    NotSeen,
    /// A quantity that came out outside what it can be.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
    /// An estimate that cannot be.
    #[error(transparent)]
    Tolerance(#[from] ToleranceError),
}

impl Refusal for IdleError {
    fn code(&self) -> &'static str {
        match self {
            Self::Readings { .. } => "mixture.idle-readings",
            Self::Places { .. } => "mixture.idle-places",
            Self::Stalled { .. } => "mixture.idle-stalled",
            Self::Change { .. } => "mixture.idle-change",
            Self::Points { .. } => "mixture.idle-points",
            Self::NotSeen => "mixture.crown-not-seen",
            Self::Quantity(inner) => inner.code(),
            Self::Tolerance(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::Readings { .. } => "read the speed at 4 to 8 places of the screw",
            Self::Places { .. } => "turn the screw between readings, a quarter turn at a time",
            Self::Stalled { .. } => "leave out places at which the engine does not run",
            Self::Change { .. } => "give the change of speed that the book states, such as 20 rpm",
            Self::Points { .. } => "ask for 2 points or more",
            Self::NotSeen => {
                "read further to the side on which the speed still rises, on both if none is known"
            }
            Self::Quantity(inner) => return inner.hint(),
            Self::Tolerance(inner) => return inner.hint(),
        })
    }
}
