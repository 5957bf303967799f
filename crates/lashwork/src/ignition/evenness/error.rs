//! Why evenness cannot be worked out.

use crate::Refusal;
use crate::engine::CylinderLabel;
use crate::quantity::{DistributorAngle, Length};
use crate::tolerance::ToleranceError;
use alloc::borrow::Cow;
/// Why evenness cannot be worked out.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum EvennessError {
    /// One cylinder has nothing to be even with.
    #[error("evenness needs two cylinders or more, the engine has {got}")]
    TooFewCylinders {
        /// How many it has.
        got: usize,
    },
    /// A cylinder without a reading.
    #[error("cylinder {cylinder} has no reading")]
    Missing {
        /// Its name.
        cylinder: CylinderLabel,
    },
    /// A cylinder read twice.
    #[error("cylinder {cylinder} has more than one reading")]
    Twice {
        /// Its name.
        cylinder: CylinderLabel,
    },
    /// A reading of a cylinder the engine does not have.
    #[error("reading {} belongs to no cylinder of the engine", .reading + 1)]
    NoSuchCylinder {
        /// Its place in the list, from 0.
        reading: usize,
    },
    /// An uncertainty that is not above zero.
    #[error("a standard uncertainty of {got} deg of a reading is not above zero")]
    Uncertainty {
        /// The refused number.
        got: f64,
    },
    /// A reading that lies nearer to another cylinder's place.
    #[error(
        "the flash of cylinder {cylinder} lies {off:.1} deg of the crank from its place beside the others, more than half the way to the next"
    )]
    AnotherPlace {
        /// Its name.
        cylinder: CylinderLabel,
        /// How far, in crank degrees.
        off: f64,
    },
    /// A dwell that fills the whole way between two sparks, or is none.
    #[error("a dwell of {} deg for cylinder {cylinder} is not between 0 and the {} deg from spark to spark", .got.degrees(), .spacing.degrees())]
    Dwell {
        /// Its name.
        cylinder: CylinderLabel,
        /// The refused dwell.
        got: DistributorAngle,
        /// From the spark before to its own.
        spacing: DistributorAngle,
    },
    /// Two lobes: each dwell holds both.
    #[error("with two lobes both dwells hold both lobes, so they cannot show which sparks late")]
    DwellOfTwo,
    /// A tolerance that is not above zero, or as wide as the spacing.
    #[error("a tolerance of {} distributor degrees either way is not above 0 and below half the spacing of {:.1}", .got.degrees(), .spacing.degrees())]
    Tolerance {
        /// The refused tolerance.
        got: DistributorAngle,
        /// The least spacing of two sparks.
        spacing: DistributorAngle,
    },
    /// A cam section that turns nothing.
    #[error("a cam radius of {} mm and a flank of {flank_mm} mm are not above zero", .radius.mm())]
    CamSection {
        /// The radius.
        radius: Length,
        /// The opening of the flank.
        flank_mm: f64,
    },
    /// An uncertainty that is a slip.
    #[error(transparent)]
    Estimate(#[from] ToleranceError),
}

impl Refusal for EvennessError {
    fn code(&self) -> &'static str {
        match self {
            Self::TooFewCylinders { .. } => "ignition.too-few-cylinders",
            Self::Missing { .. } => "ignition.reading-missing",
            Self::Twice { .. } => "ignition.reading-twice",
            Self::NoSuchCylinder { .. } => "ignition.no-such-cylinder",
            Self::Uncertainty { .. } => "ignition.reading-uncertainty",
            Self::AnotherPlace { .. } => "ignition.another-place",
            Self::Dwell { .. } => "ignition.dwell-of-cylinder",
            Self::DwellOfTwo => "ignition.dwell-of-two",
            Self::Tolerance { .. } => "ignition.evenness-tolerance",
            Self::CamSection { .. } => "ignition.cam-section",
            Self::Estimate(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::TooFewCylinders { .. } => "with one cylinder read its timing alone",
            Self::Missing { .. } => {
                "read every cylinder: the mean and the harmonic of some are not those of all"
            }
            Self::Twice { .. } => "give one reading, the mean where it was read several times",
            Self::NoSuchCylinder { .. } => "check the cylinder's name",
            Self::Uncertainty { .. } => {
                "give a standard uncertainty, such as 0.5 deg for a lamp at a mark"
            }
            Self::AnotherPlace { .. } => {
                "check on which lead the lamp was, at which mark it was read, and whether the ring was counted in the rotor's sense"
            }
            Self::Dwell { .. } => {
                "give the closed angle in distributor degrees, and the meter's scale for this number of lobes"
            }
            Self::DwellOfTwo => "read the flash of each cylinder at its own mark",
            Self::Tolerance { .. } => "give the book's figure either way, such as 2 deg",
            Self::CamSection { .. } => {
                "give the radius on which the follower runs, and over how many degrees the contacts open how far"
            }
            Self::Estimate(inner) => return inner.hint(),
        })
    }
}
