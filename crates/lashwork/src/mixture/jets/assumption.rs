//! What an answer about jets takes for granted.

use core::fmt;
use serde::Serialize;

/// Something an answer about jets rests on that nobody stated.
///
/// ```
/// use lashwork::mixture::jets::JetAssumption;
/// assert_eq!(JetAssumption::LambdaOfOne.code(), "mixture.lambda-of-one");
/// assert!(JetAssumption::JetFlow { share: 0.01 }.to_string().contains("1 %"));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum JetAssumption {
    /// How closely two jets of a number flow alike.
    JetFlow {
        /// Standard uncertainty as a part of the flow.
        share: f64,
    },
    /// The engine draws the same volume of air.
    SameVolume,
    /// Lambda with the jet that is fitted is not known.
    LambdaOfOne,
}

impl JetAssumption {
    /// A short name that never changes.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::JetFlow { .. } => "mixture.jet-flow",
            Self::SameVolume => "mixture.same-volume-of-air",
            Self::LambdaOfOne => "mixture.lambda-of-one",
        }
    }
}

impl fmt::Display for JetAssumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::JetFlow { share } => write!(
                f,
                "what flows through a jet of a number is taken as known to {:.0} % (common practice, no source)",
                100.0 * share
            ),
            Self::SameVolume => f.write_str(
                "the engine is taken to draw the same volume of air, at the same speed and throttle, and the fuel to be the same",
            ),
            Self::LambdaOfOne => f.write_str(
                "lambda with the jet that is fitted is not known and taken as 1: the figures say how much leaner or richer it gets, not how rich the engine runs",
            ),
        }
    }
}
