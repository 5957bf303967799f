//! The standard atmosphere, and heights in it.

use super::AirError;
use crate::quantity::{AbsolutePressure, Altitude, Density, Temperature};
use serde::Serialize;

/// Sea level: temperature in kelvin, pressure in kilopascals.
const TEMPERATURE: f64 = 288.15;
pub(super) const PRESSURE: f64 = 101.325;
/// Kelvin lost with each metre.
const LAPSE: f64 = 0.006_5;
/// Gas constant of air in J/(kg K), gravity in m/s2.
const AIR: f64 = 287.052_87;
const GRAVITY: f64 = 9.806_65;
/// Density altitudes that are accepted, in metres: -5000 to 20000 ft.
const DENSITY_ALTITUDES: (f64, f64) = (-1_524.0, 6_096.0);

/// The exponent with which pressure falls over temperature.
fn exponent() -> f64 {
    GRAVITY / (AIR * LAPSE)
}

/// Dry air of the standard atmosphere.
///
/// ```
/// use lashwork::mixture::air::standard_air;
/// use lashwork::quantity::Altitude;
/// let denver = standard_air(Altitude::parse("5000 ft")?)?;
/// assert!((denver.density.kilograms_per_cubic_metre() / 1.225 - 0.8617).abs() < 5e-5);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct StandardAir {
    /// Temperature.
    pub temperature: Temperature,
    /// Pressure.
    pub pressure: AbsolutePressure,
    /// Density.
    pub density: Density,
}

/// The standard atmosphere at a geopotential height, which differs from a height by map by less than a
/// thousandth.
///
/// # Errors
/// [`AirError::Quantity`] never for an [`Altitude`].
///
/// # Source
/// ISO 2533:1975 (ICAO Doc 7488): 288.15 K, 101.325 kPa, 6.5 K less for each kilometre.
pub fn standard_air(altitude: Altitude) -> Result<StandardAir, AirError> {
    let kelvin = TEMPERATURE - LAPSE * altitude.metres();
    let kilopascals = PRESSURE * libm::pow(kelvin / TEMPERATURE, exponent());
    let density = 1e3 * kilopascals / (AIR * kelvin);
    Ok(StandardAir {
        temperature: Temperature::from_celsius(kelvin - 273.15)?,
        pressure: AbsolutePressure::from_kilopascals(kilopascals)?,
        density: Density::from_kilograms_per_cubic_metre(density)?,
    })
}

/// The height at which the standard atmosphere is as dense.
///
/// # Errors
/// [`AirError::DensityAltitude`] outside -5000 to 20000 ft.
///
/// ```
/// use lashwork::mixture::air::density_altitude;
/// use lashwork::quantity::Density;
/// let hot_and_high = Density::parse("1.0065 kg/m3")?;
/// assert!((density_altitude(hot_and_high)?.metres() - 2000.0).abs() < 1.0);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn density_altitude(density: Density) -> Result<Altitude, AirError> {
    let sea = 1e3 * PRESSURE / (AIR * TEMPERATURE);
    let ratio = density.kilograms_per_cubic_metre() / sea;
    let metres = TEMPERATURE / LAPSE * (1.0 - libm::pow(ratio, 1.0 / (exponent() - 1.0)));
    let (min, max) = DENSITY_ALTITUDES;
    if (min..=max).contains(&metres) {
        Ok(Altitude::from_metres(metres)?)
    } else {
        Err(AirError::DensityAltitude {
            got: metres,
            min,
            max,
        })
    }
}

/// The pressure of the place from a barometer that is set to read as at sea level (QNH).
///
/// # Errors
/// [`AirError::Quantity`] if nothing is left of it.
///
/// # Source
/// The altimeter's equation of the standard atmosphere (ICAO Doc 7488).
///
/// ```
/// use lashwork::mixture::air::station_pressure;
/// use lashwork::quantity::{AbsolutePressure, Altitude};
/// let station = station_pressure(AbsolutePressure::parse("1013.25 mbar")?, Altitude::parse("5000 ft")?)?;
/// assert!((station.kilopascals() / 3.386_389 - 24.90).abs() < 0.005);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn station_pressure(
    setting: AbsolutePressure,
    altitude: Altitude,
) -> Result<AbsolutePressure, AirError> {
    let n = 1.0 / exponent();
    let fall = libm::pow(PRESSURE, n) * LAPSE * altitude.metres() / TEMPERATURE;
    let left = libm::pow(setting.kilopascals(), n) - fall;
    Ok(AbsolutePressure::from_kilopascals(libm::pow(
        left.max(0.0),
        1.0 / n,
    ))?)
}

/// What a barometer that is set to read as at sea level shows: the inverse of [`station_pressure`].
///
/// # Errors
/// [`AirError::Quantity`].
///
/// ```
/// use lashwork::mixture::air::{sea_level_setting, station_pressure};
/// use lashwork::quantity::{AbsolutePressure, Altitude};
/// let (high, p) = (Altitude::parse("1500 m")?, AbsolutePressure::parse("850 mbar")?);
/// let back = station_pressure(sea_level_setting(p, high)?, high)?;
/// assert!((back.kilopascals() - 85.0).abs() < 1e-12);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn sea_level_setting(
    station: AbsolutePressure,
    altitude: Altitude,
) -> Result<AbsolutePressure, AirError> {
    let n = 1.0 / exponent();
    let rise = libm::pow(PRESSURE, n) * LAPSE * altitude.metres() / TEMPERATURE;
    let whole = libm::pow(station.kilopascals(), n) + rise;
    Ok(AbsolutePressure::from_kilopascals(libm::pow(
        whole.max(0.0),
        1.0 / n,
    ))?)
}
