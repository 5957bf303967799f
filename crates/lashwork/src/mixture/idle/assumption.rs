//! What is taken for granted of an idle curve.

use core::fmt;
use serde::Serialize;

/// What was taken for granted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum IdleAssumption {
    /// The curve is a parabola.
    Parabola,
    /// How far readings scatter was seen from the curve.
    ScatterFromCurve,
    /// Throttle stop and warmth stayed as they were.
    NothingElseMoved,
}

impl IdleAssumption {
    /// A short name that never changes.
    ///
    /// ```
    /// use lashwork::mixture::idle::IdleAssumption;
    /// assert_eq!(IdleAssumption::Parabola.code(), "mixture.idle-parabola");
    /// ```
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Parabola => "mixture.idle-parabola",
            Self::ScatterFromCurve => "mixture.idle-scatter-from-curve",
            Self::NothingElseMoved => "mixture.idle-nothing-else-moved",
        }
    }
}

impl fmt::Display for IdleAssumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::Parabola => "speed against the place of the screw is taken as a parabola",
            Self::ScatterFromCurve => {
                "how far readings scatter is taken from how far they lie off the curve"
            }
            Self::NothingElseMoved => {
                "the throttle stop is taken to have stayed where it was and the engine as warm as it was"
            }
        })
    }
}
