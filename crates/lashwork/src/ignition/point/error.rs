//! Why an ignition point cannot be said in another way.

use crate::Refusal;
use crate::engine::{CylinderLabel, SliderCrankError};
use crate::quantity::{
    Advance, CrankSpeed, DistributorAdvance, DistributorSpeed, Length, PistonTravel, QuantityError,
};
use crate::tolerance::ToleranceError;
use alloc::borrow::Cow;

/// Why an ignition point cannot be said in another way.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::ignition::point::Drive;
/// assert_eq!(Drive::new(-2.0).unwrap_err().code(), "ignition.drive");
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PointError {
    /// The drive of a rotor is not one an engine has.
    #[error("{got} crank turns for one turn of the rotor are outside 0.25 to 8")]
    Drive {
        /// The refused number.
        got: f64,
    },
    /// A point printed at the crank and at the distributor is not one point.
    #[error(
        "{crank} at the crank and {distributor} at the distributor are not one point: the crank turns {turns} times as far"
    )]
    NotTheSame {
        /// At the crank.
        crank: Advance,
        /// At the distributor.
        distributor: DistributorAdvance,
        /// Crank turns for one turn of the rotor.
        turns: f64,
    },
    /// Limits with an end at one of the two shafts that the other lacks.
    #[error("the limits at the crank and those at the distributor do not have the same ends")]
    EndsDiffer,
    /// A speed given at the crank and at the distributor is not one speed.
    #[error(
        "{crank} at the crank and {distributor} at the distributor are not one speed: the crank turns {turns} times as fast"
    )]
    SpeedsDiffer {
        /// At the crank.
        crank: CrankSpeed,
        /// At the distributor.
        distributor: DistributorSpeed,
        /// Crank turns for one turn of the rotor.
        turns: f64,
    },
    /// The piston never goes down that far.
    #[error("a piston travel of {} mm is more than the stroke of {} mm", .travel.mm(), .stroke.mm())]
    BeyondStroke {
        /// The travel asked for.
        travel: PistonTravel,
        /// The stroke.
        stroke: Length,
    },
    /// The cylinder has neither crank and rod nor link rods.
    #[error("of cylinder {cylinder} neither crank and rod nor link rods are known")]
    NoRod {
        /// The cylinder.
        cylinder: CylinderLabel,
    },
    /// The cylinder is not of this engine.
    #[error("the engine has no such cylinder")]
    NoCylinder,
    /// The plug hole leans too far for a dial gauge.
    #[error("a plug hole {got} deg from the bore is outside 0 to 60 deg")]
    PlugHole {
        /// The refused angle in degrees.
        got: f64,
    },
    /// No way of reading the point is given.
    #[error("no tool is given to read the ignition point with")]
    NoTool,
    /// A number leaves the range of its quantity.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
    /// An uncertainty is out of its range.
    #[error(transparent)]
    Tolerance(#[from] ToleranceError),
    /// The crank and rod cannot turn.
    #[error(transparent)]
    SliderCrank(#[from] SliderCrankError),
}

impl Refusal for PointError {
    fn code(&self) -> &'static str {
        match self {
            Self::Drive { .. } => "ignition.drive",
            Self::NotTheSame { .. } | Self::EndsDiffer | Self::SpeedsDiffer { .. } => {
                "ignition.crank-and-distributor"
            }
            Self::BeyondStroke { .. } => "ignition.travel-beyond-stroke",
            Self::NoRod { .. } => "ignition.no-rod",
            Self::NoCylinder => "ignition.no-cylinder",
            Self::PlugHole { .. } => "ignition.plug-hole",
            Self::NoTool => "ignition.no-tool",
            Self::Quantity(inner) => inner.code(),
            Self::Tolerance(inner) => inner.code(),
            Self::SliderCrank(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        match self {
            Self::Drive { .. } => Cow::Borrowed(
                "give the crank turns for one turn of the rotor: 2 for a four-stroke distributor",
            ),
            Self::NotTheSame {
                crank, distributor, ..
            } => Cow::Borrowed(
                if (crank.degrees_before() - distributor.degrees_before()).abs() < 1e-9 {
                    "the same number stands twice: find out at which of the two the book counts, and leave the other out"
                } else {
                    "give one of the two, the one the book prints"
                },
            ),
            Self::EndsDiffer | Self::SpeedsDiffer { .. } => {
                Cow::Borrowed("give one of the two, the one the book prints")
            }
            Self::BeyondStroke { travel, stroke } => {
                if travel.mm() <= 2.0 * stroke.mm() {
                    Cow::Borrowed(
                        "check whether half the stroke, the crank radius, was given as the stroke; else check the dial's unit",
                    )
                } else {
                    Cow::Borrowed("check the unit of the travel and of the stroke")
                }
            }
            Self::NoRod { .. } => Cow::Borrowed(
                "give the stroke and the length of the rod between centres, or the link rods",
            ),
            Self::NoCylinder => Cow::Borrowed("name a cylinder of the engine"),
            Self::PlugHole { .. } => Cow::Borrowed(
                "give the angle between the plug hole and the bore; where it is large, set the point by the crank's degrees",
            ),
            Self::NoTool => Cow::Borrowed(
                "give a degree wheel, a pulley's diameter, a distributor's scale, or stroke, rod and dial gauge",
            ),
            Self::Quantity(inner) => inner.hint(),
            Self::Tolerance(inner) => inner.hint(),
            Self::SliderCrank(inner) => inner.hint(),
        }
    }
}
