//! What is taken for granted when throttles are balanced.

use core::fmt;
use serde::Serialize;

/// What was taken for granted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum BalanceAssumption {
    /// How far single readings scatter was seen from repeated ones.
    ScatterFromReadings,
    /// One gauge was moved from throttle to throttle.
    OneGauge,
    /// The pressure of the air was not stated.
    AmbientAssumed,
    /// A screw moves all throttles beyond it alike.
    BeyondAlike,
    /// A trial of one screw serves all.
    ScrewsAlike,
    /// A screw whose sense is neither stated nor tried turns as those that were tried.
    SenseOfOthers,
    /// The reading follows the turn in a straight line.
    StraightLine,
    /// Throttles on one shaft are made to be alike.
    ShaftsAlike,
    /// How large a difference matters was not stated.
    ShareAssumed,
}

impl BalanceAssumption {
    /// A short name that never changes.
    ///
    /// ```
    /// use lashwork::mixture::balance::BalanceAssumption;
    /// assert_eq!(BalanceAssumption::OneGauge.code(), "mixture.one-gauge");
    /// ```
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::ScatterFromReadings => "mixture.scatter-from-readings",
            Self::OneGauge => "mixture.one-gauge",
            Self::AmbientAssumed => "mixture.ambient-assumed",
            Self::BeyondAlike => "mixture.beyond-alike",
            Self::ScrewsAlike => "mixture.screws-alike",
            Self::SenseOfOthers => "mixture.sense-of-others",
            Self::StraightLine => "mixture.turn-straight-line",
            Self::ShaftsAlike => "mixture.shafts-alike",
            Self::ShareAssumed => "mixture.share-assumed",
        }
    }
}

impl fmt::Display for BalanceAssumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::ScatterFromReadings => {
                "how far single readings scatter is taken from those of the throttles that were read more than \
                 once, alike for all"
            }
            Self::OneGauge => {
                "one gauge is taken to have been moved from throttle to throttle, so that its own error drops out"
            }
            Self::AmbientAssumed => {
                "the air around is taken as 101.325 kPa, that of the standard atmosphere at sea level"
            }
            Self::BeyondAlike => "a screw is taken to move all throttles beyond it alike",
            Self::ScrewsAlike => "a turn of one screw is taken to do as much as one of any other",
            Self::SenseOfOthers => {
                "a screw whose sense is not stated and that no trial shows is taken to open the same way as those \
                 that were tried: turn it a little first and see the reading go the right way"
            }
            Self::StraightLine => {
                "readings are taken to follow the turn of a screw in a straight line, at one speed of the engine"
            }
            Self::ShaftsAlike => "throttles on one shaft are set by their weighted mean",
            Self::ShareAssumed => {
                "a cylinder or an opening is called different from 5 % on, which is this library's choice"
            }
        })
    }
}
