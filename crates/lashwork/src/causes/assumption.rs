//! What is taken for granted when causes are weighed.

use core::fmt;
use serde::Serialize;

/// What was taken for granted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum CauseAssumption {
    /// How often causes are met was not stated.
    PriorsAssumed,
    /// How sure a finding is was not stated.
    SureAssumed,
    /// How often a cause shows its signs.
    ChancesChosen,
    /// No more than three things are the matter.
    ThreeAtMost,
    /// How often a stated probability is right was tried on simulated engines only.
    SimulatedOnly,
    /// Findings given with the gauge are left to their own place.
    GaugeAlone,
    /// Lambda is left out beside the gases it is reckoned of.
    LambdaLeftOut,
}

impl CauseAssumption {
    /// A short name that never changes.
    ///
    /// ```
    /// use lashwork::causes::CauseAssumption;
    /// assert_eq!(CauseAssumption::ThreeAtMost.code(), "causes.three-at-most");
    /// ```
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::PriorsAssumed => "causes.priors-assumed",
            Self::SureAssumed => "causes.sure-assumed",
            Self::ChancesChosen => "causes.chances-chosen",
            Self::ThreeAtMost => "causes.three-at-most",
            Self::SimulatedOnly => "causes.simulated-only",
            Self::GaugeAlone => "causes.gauge-alone",
            Self::LambdaLeftOut => "causes.lambda-left-out",
        }
    }
}

impl fmt::Display for CauseAssumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::PriorsAssumed => {
                "how often each cause is met is taken from this library's list, not from a source"
            }
            Self::SureAssumed => "a finding whose doubt is not stated is taken to be right 99 times in 100",
            Self::ChancesChosen => {
                "which sign points to which cause is published; how often it does is this library's choice"
            }
            Self::ThreeAtMost => {
                "no more than three things are taken to be the matter at once, three only of those that fit best"
            }
            Self::SimulatedOnly => {
                "how often a stated chance is right was tried on simulated engines only: take it as an order"
            }
            Self::GaugeAlone => {
                "timing, clearances and compression given with the vacuum gauge are not weighed there a second time"
            }
            Self::LambdaLeftOut => {
                "lambda is not weighed beside the gases it is reckoned of, which would count them twice"
            }
        })
    }
}
