//! The impulse coupling: late while cranking, at the full advance when running.
//!
//! # Method
//! While it holds the rotor back the spark comes where the coupling trips; running, it comes earlier by
//! the lag, which the magneto's speed turns into crank degrees.
//!
//! # Source
//! Geometry of rotation.

use super::{MagnetoCaution, MagnetoError, MagnetoSpeed};
use crate::quantity::{Advance, CrankAngle, MagnetoAngle};
use serde::Serialize;

/// Greatest lag that is accepted, in magneto degrees: no coupling in use is far from half of it.
/// Common practice, no source.
const MOST_LAG: f64 = 60.0;
/// Earliest running spark that is accepted, in degrees before top dead centre: mechanical advances up to
/// 42 are printed, vacuum adds to it. This library's choice.
const EARLIEST: f64 = 60.0;
/// Latest, in degrees after it. Common practice, no source.
const LATEST: f64 = 20.0;

/// An impulse coupling.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::ignition::magneto::{ImpulseCoupling, MagnetoSpeed};
/// use lashwork::quantity::{Advance, MagnetoAngle};
/// # fn example() -> Result<(), Box<dyn std::error::Error>> {
/// let coupling = ImpulseCoupling::new(MagnetoAngle::from_degrees(14.0)?, MagnetoSpeed::HALF)?;
/// assert_eq!(coupling.running_from(Advance::TDC)?, Advance::parse("28 deg BTDC")?);
/// // With 22 degrees running it trips after top dead centre.
/// let trips = coupling.trips_at(Advance::parse("22 deg BTDC")?)?;
/// assert_eq!(trips, Advance::parse("6 deg ATDC")?);
/// assert!(coupling.caution(trips).is_none());
/// let none = ImpulseCoupling::new(MagnetoAngle::ZERO, MagnetoSpeed::HALF);
/// assert_eq!(none.unwrap_err().code(), "ignition.impulse-lag");
/// # Ok(())
/// # }
/// # example().unwrap();
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ImpulseCoupling {
    lag: MagnetoAngle,
    speed: MagnetoSpeed,
}

impl ImpulseCoupling {
    /// Takes the lag as on the magneto's plate, in its own degrees, and how fast it turns.
    ///
    /// # Errors
    /// [`MagnetoError::Lag`] if not above 0 or over 60 degrees.
    pub fn new(lag: MagnetoAngle, speed: MagnetoSpeed) -> Result<Self, MagnetoError> {
        if lag.degrees() > 0.0 && lag.degrees() <= MOST_LAG {
            Ok(Self { lag, speed })
        } else {
            Err(MagnetoError::Lag {
                got: lag,
                most: MOST_LAG,
            })
        }
    }

    /// The lag in crank degrees.
    #[must_use]
    pub const fn at_crank(&self) -> CrankAngle {
        self.speed.at_crank(self.lag)
    }

    /// Where the spark comes when running, from where the coupling trips.
    ///
    /// # Errors
    /// [`MagnetoError::RunningPoint`] if that is outside 20 degrees after to 60 before top dead centre.
    pub fn running_from(&self, trips: Advance) -> Result<Advance, MagnetoError> {
        checked(trips + self.at_crank())
    }

    /// Where the coupling trips, from where the spark comes when running.
    ///
    /// # Errors
    /// [`MagnetoError::RunningPoint`] for a running point outside 20 degrees after to 60 before top dead
    /// centre.
    pub fn trips_at(&self, running: Advance) -> Result<Advance, MagnetoError> {
        Ok(checked(running)? - self.at_crank())
    }

    /// What must be said where it trips there: before top dead centre it throws the crank back.
    #[must_use]
    pub fn caution(&self, trips: Advance) -> Option<MagnetoCaution> {
        (trips > Advance::TDC).then_some(MagnetoCaution::KicksBack)
    }
}

fn checked(at: Advance) -> Result<Advance, MagnetoError> {
    if (-LATEST..=EARLIEST).contains(&at.degrees_before()) {
        Ok(at)
    } else {
        Err(MagnetoError::RunningPoint {
            got: at,
            most: EARLIEST,
            least_after: LATEST,
        })
    }
}
