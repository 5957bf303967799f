//! Cranking compression in other air: it goes with the pressure of the air, not with its density.

use super::CompressionError;
use crate::mixture::air::standard_air;
use crate::quantity::{AbsolutePressure, Altitude, GaugePressure};
use serde::Serialize;

/// Air that engines run in, in kilopascals.
const AIR: (f64, f64) = (30.0, 110.0);
/// Factors that are told apart differ by more than so much.
const SAME: f64 = 0.006;

/// The air of the place, if an engine can run in it.
pub(super) fn checked(air: AbsolutePressure) -> Result<f64, CompressionError> {
    let (min, max) = AIR;
    let got = air.kilopascals();
    if (min..=max).contains(&got) {
        Ok(got)
    } else {
        Err(CompressionError::Air { got, min, max })
    }
}

/// What the gauge would show in other air with all else the same: the pressure above nothing goes with that
/// of the air, and so does what the gauge shows over it.
///
/// # Errors
/// [`CompressionError::Air`] outside 30 to 110 kPa.
///
/// # Source
/// `p = p_air r^n`, so `p - p_air` is in proportion to `p_air`.
///
/// ```
/// use lashwork::condition::compression::in_other_air;
/// use lashwork::quantity::{AbsolutePressure, GaugePressure};
/// let (sea, high) = (AbsolutePressure::parse("14.696 psi")?, AbsolutePressure::parse("12.228 psi")?);
/// let there = in_other_air(GaugePressure::parse("120 psi")?, sea, high)?;
/// assert!((there.kilopascals() / 6.894_757 - 99.85).abs() < 0.01);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn in_other_air(
    shown: GaugePressure,
    here: AbsolutePressure,
    there: AbsolutePressure,
) -> Result<GaugePressure, CompressionError> {
    let ratio = checked(there)? / checked(here)?;
    Ok(GaugePressure::from_kilopascals(
        shown.kilopascals() * ratio,
    )?)
}

/// What a printed factor follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum FactorFollows {
    /// The pressure of the standard atmosphere, as a gauge does.
    Pressure,
    /// Its density, which makes the figure too high.
    Density,
    /// So low that the two are one.
    Either,
    /// Neither.
    Neither,
}

/// A printed factor for compression at an altitude, and what it should be.
///
/// ```
/// use lashwork::condition::compression::{AltitudeFactor, FactorFollows};
/// use lashwork::quantity::Altitude;
/// // Printed for 5000 ft: it is the density of the air, a gauge shows 3 % less.
/// let factor = AltitudeFactor::printed(0.862, Altitude::parse("5000 ft")?)?;
/// assert_eq!(factor.follows, FactorFollows::Density);
/// assert!((factor.pressure - 0.832).abs() < 5e-4);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct AltitudeFactor {
    /// As printed.
    pub printed: f64,
    /// Pressure there over that at sea level: what to use.
    pub pressure: f64,
    /// Density there over that at sea level.
    pub density: f64,
    /// Which of the two the printed one is.
    pub follows: FactorFollows,
}

impl AltitudeFactor {
    /// Compares a printed factor with the standard atmosphere.
    ///
    /// # Errors
    /// [`CompressionError::Factor`] if not above 0 and up to 1.2.
    ///
    /// # Source
    /// ISO 2533:1975.
    pub fn printed(printed: f64, altitude: Altitude) -> Result<Self, CompressionError> {
        if !(printed > 0.0 && printed <= 1.2) {
            return Err(CompressionError::Factor { got: printed });
        }
        let (here, sea) = (
            standard_air(altitude)?,
            standard_air(Altitude::from_metres(0.0)?)?,
        );
        let pressure = here.pressure.kilopascals() / sea.pressure.kilopascals();
        let density =
            here.density.kilograms_per_cubic_metre() / sea.density.kilograms_per_cubic_metre();
        let near = |factor: f64| (printed - factor).abs() <= SAME;
        let follows = match (near(pressure), near(density)) {
            (true, true) => FactorFollows::Either,
            (true, false) => FactorFollows::Pressure,
            (false, true) => FactorFollows::Density,
            (false, false) => FactorFollows::Neither,
        };
        Ok(Self {
            printed,
            pressure,
            density,
            follows,
        })
    }
}
