//! Events at the running lash.

use crate::quantity::CrankAngle;
use crate::tolerance::Estimate;
use crate::valve::CamEvent;
use alloc::vec::Vec;
use core::fmt;
use serde::Serialize;

/// Where an event is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct EventFound {
    /// Which.
    pub event: CamEvent,
    /// As printed.
    pub printed: CrankAngle,
    /// At the running lash; with one end if the ramp ends under the lash.
    pub running: Estimate<CrankAngle>,
    /// Crank degrees by which the valve is open for less on this side, by the middle of the lash; negative for
    /// more.
    pub lost: CrankAngle,
}

/// Volume at the closing of the intake over that at the top.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct EffectiveRatio {
    /// With the closing as printed.
    pub printed: f64,
    /// At the running lash.
    pub running: f64,
    /// Its standard uncertainty by the lash.
    pub running_u: f64,
}

/// What was taken for granted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum EventsAssumption {
    /// Crank and rod were not stated.
    RodRatio,
    /// The ramp or the slope holds for all valves of a kind.
    OneFlank,
}

impl EventsAssumption {
    /// A short name that never changes.
    ///
    /// ```
    /// use lashwork::events::EventsAssumption;
    /// assert_eq!(EventsAssumption::RodRatio.code(), "events.rod-assumed");
    /// ```
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::RodRatio => "events.rod-assumed",
            Self::OneFlank => "events.one-flank",
        }
    }
}

impl fmt::Display for EventsAssumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::RodRatio => "crank and rod are taken in the usual proportion of 1 to 3.5",
            Self::OneFlank => {
                "the ramp of this valve is taken to be that of the maker's cam, not worn"
            }
        })
    }
}

/// The answer to [`RunningEvents`](super::RunningEvents).
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct EventsFound {
    /// Intake opens, intake closes, exhaust opens, exhaust closes.
    pub events: [EventFound; 4],
    /// Crank degrees for which the intake is open.
    pub intake_duration: Estimate<CrankAngle>,
    /// Crank degrees for which the exhaust is open.
    pub exhaust_duration: Estimate<CrankAngle>,
    /// Crank degrees for which both are open; negative if never.
    pub overlap: Estimate<CrankAngle>,
    /// The effective ratio, if the printed one is known and the closing has two ends.
    pub effective_ratio: Option<EffectiveRatio>,
    /// What was taken for granted.
    pub assumptions: Vec<EventsAssumption>,
}
