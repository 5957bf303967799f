//! Why a magneto cannot be judged.

use super::Which;
use crate::Refusal;
use crate::quantity::{Advance, CrankSpeed, MagnetoAngle, QuantityError};
use crate::tolerance::ToleranceError;
use alloc::borrow::Cow;

/// Why a magneto cannot be judged.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::ignition::magneto::MagnetoSpeed;
/// let refused = MagnetoSpeed::new(0.0).unwrap_err();
/// assert_eq!(refused.code(), "ignition.magneto-speed");
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum MagnetoError {
    /// No speed at which a magneto is driven.
    #[error("{got} magneto turns for one turn of the crank are outside {least} to {most}")]
    Speed {
        /// The refused ratio.
        got: f64,
        /// Least accepted.
        least: f64,
        /// Greatest accepted.
        most: f64,
    },
    /// A stated speed and one that follows from the sparks that do not agree.
    #[error(
        "{stated} magneto turns for one turn of the crank are stated, and {by_sparks} follow from its sparks"
    )]
    SpeedsDiffer {
        /// As stated.
        stated: f64,
        /// By cylinders, cycle and sparks.
        by_sparks: f64,
    },
    /// An angle between neutral and opening that no magneto has.
    #[error("contacts that open {} deg past neutral are outside 0 to {most} deg", .got.degrees())]
    EGap {
        /// The refused angle.
        got: MagnetoAngle,
        /// Greatest accepted, in degrees.
        most: f64,
    },
    /// A lag that no impulse coupling has.
    #[error("a lag of {} magneto degrees is not above 0 and at most {most}", .got.degrees())]
    Lag {
        /// The refused lag.
        got: MagnetoAngle,
        /// Greatest accepted, in degrees.
        most: f64,
    },
    /// A spark so early that a figure is in the wrong degrees or at the wrong speed.
    #[error("the running spark would come at {}, outside {least_after} deg ATDC to {most} deg BTDC", .got.show(1))]
    RunningPoint {
        /// Where it would come.
        got: Advance,
        /// Greatest accepted, in degrees before top dead centre.
        most: f64,
        /// Latest accepted, in degrees after top dead centre.
        least_after: f64,
    },
    /// Limits, or a reading, with one end: nothing to aim at, or nothing to take a difference of.
    #[error("{what} has one end only")]
    OneEnd {
        /// What has.
        what: &'static str,
    },
    /// An allowed difference that is not above zero.
    #[error("an allowed difference of {got} {unit} is not above zero")]
    Allowed {
        /// The refused number.
        got: f64,
        /// Its unit.
        unit: &'static str,
    },
    /// An engine that stands still has no drop.
    #[error("a speed of {got} on {on} is no running speed")]
    NotRunning {
        /// The refused speed.
        got: CrankSpeed,
        /// With which magnetos.
        on: &'static str,
    },
    /// Faster on one magneto than on both, by more than the readings can err.
    #[error("{alone} on the {which} magneto alone is faster than {both} on both")]
    Faster {
        /// Which was on.
        which: Which,
        /// The speed on it alone.
        alone: CrankSpeed,
        /// The speed on both.
        both: CrankSpeed,
    },
    /// A quantity that came out outside what it can be.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
    /// A band or an estimate that cannot be.
    #[error(transparent)]
    Tolerance(#[from] ToleranceError),
}

impl Refusal for MagnetoError {
    fn code(&self) -> &'static str {
        match self {
            Self::Speed { .. } => "ignition.magneto-speed",
            Self::SpeedsDiffer { .. } => "ignition.magneto-speeds-differ",
            Self::EGap { .. } => "ignition.e-gap",
            Self::Lag { .. } => "ignition.impulse-lag",
            Self::RunningPoint { .. } => "ignition.running-point",
            Self::OneEnd { .. } => "ignition.one-end",
            Self::Allowed { .. } => "ignition.allowed-difference",
            Self::NotRunning { .. } => "ignition.not-running",
            Self::Faster { .. } => "ignition.faster-on-one",
            Self::Quantity(inner) => inner.code(),
            Self::Tolerance(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::Speed { .. } => {
                "give magneto turns for one turn of the crank, such as 0.5, 1 or 1.5"
            }
            Self::SpeedsDiffer { .. } => {
                "turn the crank once and count the magneto's turns; state one of the two"
            }
            Self::EGap { .. } => {
                "give the rotor's degrees from the neutral place, turning as it runs, to where the contacts open"
            }
            Self::Lag { .. } => "give the lag in degrees of the magneto, as on its plate",
            Self::RunningPoint { .. } => {
                "check whether the lag is in magneto or crank degrees and how fast the magneto turns"
            }
            Self::OneEnd { .. } => "give both ends",
            Self::Allowed { .. } => "give the book's greatest difference, such as 75 rpm",
            Self::NotRunning { .. } => {
                "read the speed of the running engine at the speed the book tests at"
            }
            Self::Faster { .. } => {
                "check which reading was taken on which magneto, let the speed settle, and test again"
            }
            Self::Quantity(inner) => return inner.hint(),
            Self::Tolerance(inner) => return inner.hint(),
        })
    }
}
