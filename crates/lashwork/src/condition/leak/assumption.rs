//! What is taken for granted of leak-down.

use core::fmt;
use serde::Serialize;

/// What was taken for granted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum LeakAssumption {
    /// The pressure of the air was not stated.
    AirAssumed,
    /// The gauge's uncertainty was not stated.
    GaugeAssumed,
    /// Both restrictions pass the same part of what a perfect one would.
    EqualDischarge,
    /// Whether the engine was warm was not stated.
    WarmthUnstated,
}

impl LeakAssumption {
    /// A short name that never changes.
    ///
    /// ```
    /// use lashwork::condition::leak::LeakAssumption;
    /// assert_eq!(LeakAssumption::EqualDischarge.code(), "condition.leak-equal-discharge");
    /// ```
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::AirAssumed => "condition.leak-air-assumed",
            Self::GaugeAssumed => "condition.leak-gauge-assumed",
            Self::EqualDischarge => "condition.leak-equal-discharge",
            Self::WarmthUnstated => "condition.leak-warmth-unstated",
        }
    }
}

impl fmt::Display for LeakAssumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::AirAssumed => "the air around is taken as that of sea level",
            Self::GaugeAssumed => {
                "the tester's gauge is taken to be right to a standard deviation of 5 kPa (0.7 psi)"
            }
            Self::EqualDischarge => {
                "the leak is taken to pass the same part of what a perfect hole would as the tester's orifice does; its area is that of such an orifice"
            }
            Self::WarmthUnstated => "the engine is taken to be warm; cold rings leak more",
        })
    }
}
