//! What an engine had to take for granted.

use super::CylinderLabel;
use crate::quantity::{CrankAngle, CyclePosition};
use core::fmt;
use serde::Serialize;

/// Valve movement over cam movement that is taken, and to be listed, where it is not stated: as without
/// a rocker.
pub const ASSUMED_ROCKER_RATIO: f64 = 1.0;

/// Something the engine was built on that its parts do not say.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum EngineAssumption {
    /// The crank lets a cylinder fire in either of two turns, and one was chosen.
    TurnChosen {
        /// The cylinder.
        cylinder: CylinderLabel,
        /// The first cylinder of the order.
        first: CylinderLabel,
        /// Where it is taken to fire.
        chosen: CyclePosition,
        /// Where it could fire as well, in the same order.
        other: CyclePosition,
        /// Whether the other turn spaces the firings just as widely.
        tied: bool,
    },
    /// Only some cylinders carry bank and crankpin angles, so they were not compared with order
    /// and intervals.
    GeometryNotCompared {
        /// The first cylinder without them.
        without: CylinderLabel,
    },
    /// Directions of knuckle pins are not stated; each is taken at its cylinder's bank angle.
    KnucklesAtBanks {
        /// The first cylinder without one.
        cylinder: CylinderLabel,
    },
    /// The running direction is not stated: clockwise seen from the free end is taken.
    RotationNotStated,
    /// Where cylinder 1 is, is not stated: the free end is taken.
    NumberingNotStated,
    /// Listed intervals miss the cycle by a rounding; the last interval takes up the rest.
    IntervalsRounded {
        /// The cycle less the sum of the intervals as listed.
        rest: CrankAngle,
    },
}

impl EngineAssumption {
    /// A short name that never changes.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::TurnChosen { .. } => "engine.turn",
            Self::GeometryNotCompared { .. } => "engine.geometry-not-compared",
            Self::KnucklesAtBanks { .. } => "engine.knuckles",
            Self::RotationNotStated => "engine.rotation",
            Self::NumberingNotStated => "engine.numbering",
            Self::IntervalsRounded { .. } => "engine.intervals-rounded",
        }
    }
}

impl fmt::Display for EngineAssumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TurnChosen {
                cylinder,
                first,
                chosen,
                other,
                tied,
            } => {
                let why = if *tied {
                    "the earlier turn"
                } else {
                    "the evener spacing"
                };
                write!(
                    f,
                    "cylinder {cylinder} is taken to fire {:.2} deg after cylinder {first} \
                     ({why}); its crankpin would also allow {:.2} deg",
                    chosen.degrees(),
                    other.degrees()
                )
            }
            Self::GeometryNotCompared { without } => write!(
                f,
                "bank and crankpin angles were not compared with the firing order, because \
                 cylinder {without} has none"
            ),
            Self::KnucklesAtBanks { cylinder } => write!(
                f,
                "knuckle pins without a stated direction (first: cylinder {cylinder}) are taken to \
                 stand at their cylinders' bank angles when the master is at its top"
            ),
            Self::RotationNotStated => {
                f.write_str("running direction not stated: clockwise seen from the free end taken")
            }
            Self::NumberingNotStated => {
                f.write_str("numbering of the cylinders not stated: from the free end taken")
            }
            Self::IntervalsRounded { rest } => write!(
                f,
                "the listed firing intervals miss the cycle by {:.6} deg, which is added to the last one",
                rest.degrees()
            ),
        }
    }
}
