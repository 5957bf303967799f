//! External timing: the spark against the crank, of one magneto and of two.
//!
//! # Method
//! A spark that is off by so many crank degrees is brought back by turning the magneto's body by that
//! angle at the magneto's own speed: against its rotor's sense for earlier, with it for later.
//!
//! # Source
//! Geometry.

use super::{MagnetoCaution, MagnetoError, MagnetoSpeed, Which};
use crate::engine::Sense;
use crate::ignition::evenness::FiringError;
use crate::quantity::{Advance, CrankAngle, MagnetoAngle};
use crate::tolerance::{Estimate, Judgement, Limits, Uncertainty, Verdict};
use serde::Serialize;

/// Earliest static point that is accepted, in degrees before top dead centre. Common practice, no source.
const EARLIEST: f64 = 45.0;
/// Latest, in degrees after it. Common practice, no source.
const LATEST: f64 = 20.0;

/// How to turn the magneto's body in its slots.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct BodyTurn {
    /// How far, never negative.
    pub angle: MagnetoAngle,
    /// Its standard uncertainty.
    pub standard_uncertainty: MagnetoAngle,
    /// Which way, facing the end from which the rotor's sense was stated.
    pub sense: Sense,
}

/// A magneto's spark against the crank.
///
/// ```
/// use lashwork::engine::Sense;
/// use lashwork::ignition::magneto::{ExternalTiming, MagnetoSpeed};
/// use lashwork::tolerance::{Estimate, Verdict};
/// # fn example() -> Result<(), Box<dyn std::error::Error>> {
/// let late = ExternalTiming {
///     read: Estimate::from_numbers(18.0, 18.0, 0.3)?,
///     limits: "21 deg BTDC to 23 deg BTDC".parse()?,
///     speed: MagnetoSpeed::FULL,
///     rotor: Sense::Clockwise,
/// };
/// let answer = late.judged()?;
/// assert_eq!(answer.judgement.verdict, Verdict::Below);
/// let turn = answer.turn.ok_or("it is off")?;
/// assert_eq!((turn.angle.degrees(), turn.sense), (4.0, Sense::Anticlockwise));
/// # Ok(())
/// # }
/// # example().unwrap();
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ExternalTiming {
    /// Where the contacts open, read at the crank.
    pub read: Estimate<Advance>,
    /// The book's band, both ends.
    pub limits: Limits<Advance>,
    /// How fast the magneto turns.
    pub speed: MagnetoSpeed,
    /// Which way its rotor turns, facing the end from which it is to be turned.
    pub rotor: Sense,
}

/// What came out for one magneto.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ExternalAnswer {
    /// The verdict.
    pub judgement: Judgement,
    /// How far to turn the body to the middle of the band; none in the band.
    pub turn: Option<BodyTurn>,
    /// What must be said with it.
    pub cautions: [MagnetoCaution; 2],
}

impl ExternalTiming {
    /// Judges the reading.
    ///
    /// # Errors
    /// [`MagnetoError::OneEnd`] if the band or the reading has one end only;
    /// [`MagnetoError::RunningPoint`] for a reading or a band outside 20 degrees after to 45 before top
    /// dead centre.
    pub fn judged(&self) -> Result<ExternalAnswer, MagnetoError> {
        let one_end = |what| MagnetoError::OneEnd { what };
        let (low, high) = self
            .limits
            .lower()
            .zip(self.limits.upper())
            .ok_or_else(|| one_end("the band of the ignition point"))?;
        let (read, u) = centre(&self.read)?;
        for at in [low, high, read] {
            if !(-LATEST..=EARLIEST).contains(&at.degrees_before()) {
                return Err(MagnetoError::RunningPoint {
                    got: at,
                    most: EARLIEST,
                    least_after: LATEST,
                });
            }
        }
        let judgement = self.read.judged_by(&self.limits);
        let middle = f64::midpoint(low.degrees_before(), high.degrees_before());
        let earlier = CrankAngle::computed(middle - read.degrees_before());
        let at_magneto = self.speed.at_magneto(earlier).degrees();
        let turn = BodyTurn {
            angle: MagnetoAngle::computed(at_magneto.abs()),
            standard_uncertainty: self.speed.at_magneto(u),
            // Against the rotor its contacts are met sooner.
            sense: if at_magneto > 0.0 {
                other(self.rotor)
            } else {
                self.rotor
            },
        };
        Ok(ExternalAnswer {
            judgement,
            turn: (judgement.verdict != Verdict::InBand).then_some(turn),
            cautions: [MagnetoCaution::PropellerIsLive, MagnetoCaution::HighVoltage],
        })
    }
}

/// Two magnetos of one engine.
///
/// ```
/// use lashwork::ignition::magneto::{Pair, Which};
/// use lashwork::quantity::CrankAngle;
/// use lashwork::tolerance::{Estimate, Verdict};
/// # fn example() -> Result<(), Box<dyn std::error::Error>> {
/// let pair = Pair {
///     left: Estimate::from_numbers(22.0, 22.0, 0.3)?,
///     right: Estimate::from_numbers(18.0, 18.0, 0.3)?,
///     most_apart: CrankAngle::from_degrees(2.0)?,
/// };
/// let answer = pair.judged()?;
/// assert_eq!(answer.difference.degrees_late(), 4.0);
/// assert_eq!(answer.judgement.verdict, Verdict::Above);
/// assert_eq!(answer.earlier, Some(Which::Left));
/// # Ok(())
/// # }
/// # example().unwrap();
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pair {
    /// Where the left one sparks.
    pub left: Estimate<Advance>,
    /// Where the right one does.
    pub right: Estimate<Advance>,
    /// How far apart the book lets them be, either way.
    pub most_apart: CrankAngle,
}

/// What came out for two.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PairAnswer {
    /// How late the right one is against the left one.
    pub difference: FiringError,
    /// Its standard uncertainty.
    pub standard_uncertainty: CrankAngle,
    /// The verdict on the difference: above where the right one is too late.
    pub judgement: Judgement,
    /// Which is the earlier, if they differ by more than the book allows.
    pub earlier: Option<Which>,
}

impl Pair {
    /// Judges how far they are apart.
    ///
    /// # Errors
    /// [`MagnetoError::Allowed`] if `most_apart` is not above zero, [`MagnetoError::OneEnd`] for a reading
    /// with one end, [`MagnetoError::Tolerance`] for a difference too uncertain.
    pub fn judged(&self) -> Result<PairAnswer, MagnetoError> {
        let most = self.most_apart.degrees();
        if most <= 0.0 {
            return Err(MagnetoError::Allowed {
                got: most,
                unit: "deg",
            });
        }
        let (left, left_u) = centre(&self.left)?;
        let (right, right_u) = centre(&self.right)?;
        let late = FiringError::late_by(left - right);
        let u = libm::hypot(left_u.degrees(), right_u.degrees());
        let estimate = Estimate::between(late, late, Uncertainty::from_number(u)?)?;
        let limits = Limits::between(
            FiringError::late_by(-self.most_apart),
            FiringError::late_by(self.most_apart),
        )?;
        let judgement = estimate.judged_by(&limits);
        Ok(PairAnswer {
            difference: late,
            standard_uncertainty: CrankAngle::computed(u),
            judgement,
            earlier: match judgement.verdict {
                Verdict::Above => Some(Which::Left),
                Verdict::Below => Some(Which::Right),
                _ => None,
            },
        })
    }
}

/// The middle of a reading and its standard uncertainty.
fn centre(read: &Estimate<Advance>) -> Result<(Advance, CrankAngle), MagnetoError> {
    let found = read.centre().zip(read.standard_uncertainty());
    let (at, u) = found.ok_or(MagnetoError::OneEnd {
        what: "the reading of the ignition point",
    })?;
    Ok((at, CrankAngle::computed(u.number())))
}

const fn other(sense: Sense) -> Sense {
    match sense {
        Sense::Clockwise => Sense::Anticlockwise,
        Sense::Anticlockwise => Sense::Clockwise,
    }
}
