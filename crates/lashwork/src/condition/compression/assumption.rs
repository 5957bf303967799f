//! What is taken for granted of cranking compression.

use core::fmt;
use serde::Serialize;

/// What was taken for granted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum CompressionAssumption {
    /// The pressure of the air was not stated.
    AirAssumed,
    /// Crank and rod were not stated.
    RodRatio,
    /// The closing of the intake was not stated.
    ClosingAssumed,
    /// The exponent was not stated.
    ExponentAssumed,
    /// The gauge's scatter was not stated.
    RepeatAssumed,
    /// The gauge's common error was not stated.
    GaugeAssumed,
    /// Which cylinders share a gasket was not stated.
    NoNeighbours,
    /// What oil adds by the room it takes was left open.
    OilRoomOpen,
    /// Cylinders are compared as if all closed alike.
    OwnClosings,
    /// How far cylinders differ by their own closing was not known without the ratio.
    AlikeClosings,
    /// Good cylinders differ by so much.
    NaturalSpread,
    /// How often causes are met, and what they show.
    CausesChosen,
    /// How the engine was cranked was not stated in full.
    CrankingUnstated,
}

impl CompressionAssumption {
    /// A short name that never changes.
    ///
    /// ```
    /// use lashwork::condition::compression::CompressionAssumption;
    /// assert_eq!(CompressionAssumption::AirAssumed.code(), "condition.compression-air-assumed");
    /// ```
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::AirAssumed => "condition.compression-air-assumed",
            Self::RodRatio => "condition.compression-rod-assumed",
            Self::ClosingAssumed => "condition.compression-closing-assumed",
            Self::ExponentAssumed => "condition.compression-exponent-assumed",
            Self::RepeatAssumed => "condition.compression-repeat-assumed",
            Self::GaugeAssumed => "condition.compression-gauge-assumed",
            Self::NoNeighbours => "condition.compression-no-neighbours",
            Self::OilRoomOpen => "condition.compression-oil-room-open",
            Self::OwnClosings => "condition.compression-own-closings",
            Self::AlikeClosings => "condition.compression-alike-closings",
            Self::NaturalSpread => "condition.compression-natural-spread",
            Self::CausesChosen => "condition.compression-causes-chosen",
            Self::CrankingUnstated => "condition.compression-cranking-unstated",
        }
    }
}

impl fmt::Display for CompressionAssumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::AirAssumed => {
                "the air around is taken as that of sea level; higher up every cylinder shows less, in proportion to the pressure of the air"
            }
            Self::RodRatio => "crank and rod are taken in the usual proportion of 1 to 3.5",
            Self::ClosingAssumed => {
                "the intake is taken to close between 30 and 70 degrees after bottom dead centre"
            }
            Self::ExponentAssumed => {
                "the exponent of compression is taken between 1.15 and 1.30, as printed pressures imply"
            }
            Self::RepeatAssumed => {
                "two readings of one cylinder are taken to differ by a standard deviation of 15 kPa (2 psi)"
            }
            Self::GaugeAssumed => {
                "the gauge is taken to be right to a standard deviation of 20 kPa (3 psi), the same for all cylinders"
            }
            Self::NoNeighbours => {
                "no two cylinders are taken to share a head gasket, so a leak between them is not weighed"
            }
            Self::OilRoomOpen => {
                "oil takes room and raises a sound cylinder too, here by anything up to 8 %; give its amount and the swept volume"
            }
            Self::OwnClosings => {
                "each cylinder whose clearances were read is compared with the others by where its own intake closes; the others are taken to close on the mean"
            }
            Self::AlikeClosings => {
                "cylinders are compared as if their clearances were alike: how far each moves its compression is not known without the compression ratio"
            }
            Self::NaturalSpread => "good cylinders are taken to differ by a standard deviation of 3 %",
            Self::CausesChosen => {
                "which readings point to which cause is published; how often causes are met and how far they lower a cylinder is this library's choice"
            }
            Self::CrankingUnstated => {
                "the engine is taken to be warm, cranked with a good battery, all plugs out, the throttle open, for four strokes or more"
            }
        })
    }
}
