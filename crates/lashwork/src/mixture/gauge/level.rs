//! Vacuum and altitude.
//!
//! # Method
//! Two ways to reckon: the engine needs the same pressure behind its throttle wherever it is, or the same part
//! of the pressure around. The truth at idle lies between, because the throttle stop is set anew.

use super::GaugeError;
use crate::quantity::{AbsolutePressure, QuantityError, Vacuum};
use serde::Serialize;
use uom::si::f64::Pressure;
use uom::si::pressure::kilopascal;

/// The standard atmosphere at sea level, in kilopascals (ISO 2533).
pub(super) const SEA_LEVEL: f64 = 101.325;
/// Pressures that are taken for air an engine runs in, in kilopascals: up to about 20 000 ft.
const AIR: (f64, f64) = (45.0, 110.0);

/// A vacuum reckoned to another pressure of the air, both ways.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ByAltitude {
    /// With the same pressure behind the throttle.
    pub same_pressure: Vacuum,
    /// With the same part of the pressure around.
    pub same_part: Vacuum,
}

/// What a vacuum read in this air would be at sea level.
///
/// # Errors
/// [`GaugeError::BeyondAmbient`], [`GaugeError::Ambient`].
///
/// ```
/// use lashwork::mixture::gauge::at_sea_level;
/// use lashwork::quantity::{AbsolutePressure, Vacuum};
/// // 15 inHg in the air of 5000 ft.
/// let found = at_sea_level(Vacuum::parse("15 inHg")?, AbsolutePressure::parse("84.307 kPa")?)?;
/// assert!((found.same_pressure.kilopascals() / 3.386389 - 20.03).abs() < 0.01);
/// assert!((found.same_part.kilopascals() / 3.386389 - 18.03).abs() < 0.01);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn at_sea_level(vacuum: Vacuum, ambient: AbsolutePressure) -> Result<ByAltitude, GaugeError> {
    checked(vacuum, ambient)?;
    moved(vacuum, ambient.si(), sea_level())
}

/// What a vacuum at sea level is in this air.
///
/// # Errors
/// [`GaugeError::BeyondAmbient`], [`GaugeError::Ambient`], [`GaugeError::Quantity`] if none would be left.
///
/// ```
/// use lashwork::mixture::gauge::from_sea_level;
/// use lashwork::quantity::{AbsolutePressure, Vacuum};
/// let here = from_sea_level(Vacuum::parse("20 inHg")?, AbsolutePressure::parse("84.307 kPa")?)?;
/// assert!(here.same_pressure < here.same_part);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn from_sea_level(vacuum: Vacuum, ambient: AbsolutePressure) -> Result<ByAltitude, GaugeError> {
    checked(vacuum, AbsolutePressure::from_kilopascals(SEA_LEVEL)?)?;
    air(ambient)?;
    moved(vacuum, sea_level(), ambient.si())
}

fn sea_level() -> Pressure {
    Pressure::new::<kilopascal>(SEA_LEVEL)
}

fn moved(vacuum: Vacuum, from: Pressure, to: Pressure) -> Result<ByAltitude, GaugeError> {
    let of = |vacuum: Pressure| -> Result<Vacuum, QuantityError> { Vacuum::of_si(vacuum) };
    Ok(ByAltitude {
        same_pressure: of(vacuum.si() + to - from)?,
        same_part: of(vacuum.si() * (to / from))?,
    })
}

/// That air may be such, and a vacuum in it.
pub(super) fn checked(vacuum: Vacuum, ambient: AbsolutePressure) -> Result<(), GaugeError> {
    air(ambient)?;
    if vacuum.kilopascals() > ambient.kilopascals() {
        return Err(GaugeError::BeyondAmbient { vacuum, ambient });
    }
    Ok(())
}

pub(super) fn air(ambient: AbsolutePressure) -> Result<(), GaugeError> {
    if (AIR.0..=AIR.1).contains(&ambient.kilopascals()) {
        Ok(())
    } else {
        Err(GaugeError::Ambient {
            got: ambient,
            least: AIR.0,
            most: AIR.1,
        })
    }
}
