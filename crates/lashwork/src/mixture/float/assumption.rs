//! What an answer about the float takes for granted.

use core::fmt;
use serde::Serialize;

/// Something an answer about float and fuel rests on that nobody stated.
///
/// ```
/// use lashwork::mixture::float::FloatAssumption;
/// assert_eq!(FloatAssumption::EvenFloat.code(), "mixture.even-float");
/// assert!(FloatAssumption::SameDepression.to_string().contains("depression"));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum FloatAssumption {
    /// The float is equally wide where the surface moves.
    EvenFloat,
    /// What presses on the needle is the same.
    SameNeedle,
    /// The air draws as before.
    SameDepression,
    /// A jet's flow follows the root of density and depression.
    NoViscosity,
}

impl FloatAssumption {
    /// A short name that never changes.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::EvenFloat => "mixture.even-float",
            Self::SameNeedle => "mixture.same-needle",
            Self::SameDepression => "mixture.same-depression",
            Self::NoViscosity => "mixture.no-viscosity",
        }
    }
}

impl fmt::Display for FloatAssumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::EvenFloat => {
                "the float is taken as equally wide over the height by which the level changes"
            }
            Self::SameNeedle => "the pressure of the fuel on the needle is taken as the same",
            Self::SameDepression => {
                "the depression at the nozzle is taken as the same with both fuels"
            }
            Self::NoViscosity => {
                "the flow through a jet is taken to go with the root of density and depression; a more viscous fuel flows less through a small one"
            }
        })
    }
}
