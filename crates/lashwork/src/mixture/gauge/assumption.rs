//! What is taken for granted of a vacuum gauge.

use core::fmt;
use serde::Serialize;

/// What was taken for granted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum GaugeAssumption {
    /// The pressure of the air was not stated.
    AmbientAssumed,
    /// The gauge's uncertainty was not stated.
    GaugeAssumed,
    /// How often causes are met was not stated.
    PriorsAssumed,
    /// The chance of a wrong look was not stated.
    MisreadAssumed,
    /// How often a cause shows its movement.
    ChancesChosen,
    /// Signs of one cause do not depend on each other.
    SignsIndependent,
}

impl GaugeAssumption {
    /// A short name that never changes.
    ///
    /// ```
    /// use lashwork::mixture::gauge::GaugeAssumption;
    /// assert_eq!(GaugeAssumption::ChancesChosen.code(), "mixture.gauge-chances-chosen");
    /// ```
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::AmbientAssumed => "mixture.gauge-ambient-assumed",
            Self::GaugeAssumed => "mixture.gauge-uncertainty-assumed",
            Self::PriorsAssumed => "mixture.gauge-priors-assumed",
            Self::MisreadAssumed => "mixture.gauge-misread-assumed",
            Self::ChancesChosen => "mixture.gauge-chances-chosen",
            Self::SignsIndependent => "mixture.gauge-signs-independent",
        }
    }
}

impl fmt::Display for GaugeAssumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::AmbientAssumed => {
                "the air around is taken as that of sea level; higher up every engine shows less vacuum"
            }
            Self::GaugeAssumed => "the gauge is taken to be right to 0.5 inHg of standard deviation",
            Self::PriorsAssumed => {
                "how often each cause is met is taken from this library's list, not from a source"
            }
            Self::MisreadAssumed => "five looks in a hundred are taken to be misread",
            Self::ChancesChosen => {
                "which movement points to which cause is published; how often it does is this library's choice"
            }
            Self::SignsIndependent => "the signs of one cause are taken as independent of each other",
        })
    }
}
