//! How dense the air is, with its uncertainty and by which law.

use super::moist::{MoistAir, dry};
use super::{AirAssumption, AirError, density_altitude, standard_air};
use crate::quantity::{
    AbsolutePressure, Altitude, Density, RelativeHumidity, Temperature, TemperatureDifference,
};
use crate::tolerance::known::{known, normal, together};
use crate::tolerance::{Estimate, Uncertainty};
use alloc::vec;
use alloc::vec::Vec;
use serde::Serialize;

/// Standard uncertainty of the density that a height alone leaves, as a part of it: weather and season. This
/// library's choice: 15 K and 1 kPa of standard uncertainty.
pub const WEATHER_SHARE: f64 = 0.053;

/// Standard uncertainty of the pressure that a height alone leaves, in kilopascals. This library's choice.
const WEATHER_KILOPASCALS: f64 = 1.0;

/// Which formula said how dense the air is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum DensityLaw {
    /// CIPM-2007, from pressure, temperature and humidity.
    Cipm2007,
    /// ISO 2533, from the height alone.
    Iso2533,
}

/// How dense the air is.
///
/// ```
/// use lashwork::mixture::air::{AirReading, DensityLaw, density, density_at};
/// use lashwork::quantity::{AbsolutePressure, Altitude, Temperature, TemperatureDifference};
/// use lashwork::tolerance::{Estimate, Uncertainty};
/// let p = AbsolutePressure::parse("846 mbar")?;
/// let found = density(&AirReading {
///     pressure: Estimate::between(p, p, Uncertainty::from_number(0.1)?)?,
///     temperature: Temperature::from_celsius(28.0)?,
///     temperature_u: TemperatureDifference::from_kelvin(1.0)?,
///     humidity: None,
/// })?;
/// assert_eq!(found.law, DensityLaw::Cipm2007);
/// assert!(found.altitude.unwrap().metres() > 2000.0, "hot air at 1500 m is as thin as at 2000 m");
/// let by_map = density_at(Altitude::from_metres(1500.0)?)?;
/// assert_eq!(by_map.law, DensityLaw::Iso2533);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct AirDensity {
    /// The density.
    pub density: Estimate<Density>,
    /// Its middle over the 1.225 kg/m3 of the standard atmosphere at sea level.
    pub ratio: f64,
    /// The height at which the standard atmosphere is as dense; `None` outside -5000 to 20000 ft.
    pub altitude: Option<Altitude>,
    /// Which formula said so.
    pub law: DensityLaw,
    /// What was taken for granted.
    pub assumptions: Vec<AirAssumption>,
}

/// Readings of the air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AirReading {
    /// Pressure of the place.
    pub pressure: Estimate<AbsolutePressure>,
    /// Temperature where the engine breathes.
    pub temperature: Temperature,
    /// Its standard uncertainty.
    pub temperature_u: TemperatureDifference,
    /// Humidity; without it anything from none to all is left open.
    pub humidity: Option<Estimate<RelativeHumidity>>,
}

/// Density by CIPM-2007 with the uncertainty of the readings.
///
/// # Errors
/// [`AirError::OneSided`]; [`AirError::Pressure`], [`AirError::Temperature`],
/// [`AirError::TemperatureUncertainty`].
pub fn density(reading: &AirReading) -> Result<AirDensity, AirError> {
    let (kpa, kpa_u) = known(&reading.pressure).ok_or(AirError::OneSided {
        what: "the pressure",
    })?;
    let pressure = AbsolutePressure::from_kilopascals(kpa)?;
    let kelvin_u = off_by(reading.temperature_u)?;
    let (humidity, humidity_u) = match &reading.humidity {
        Some(humidity) => known(humidity).ok_or(AirError::OneSided {
            what: "the humidity",
        })?,
        None => (50.0, 0.0),
    };
    let at = |percent: f64| {
        MoistAir::new(
            pressure,
            reading.temperature,
            RelativeHumidity::from_percent(percent)?,
        )
    };
    let air = at(humidity)?;
    let found = air.sloped();
    let u = together([
        found.by_pressure * kpa_u,
        found.by_temperature * kelvin_u,
        found.by_humidity * humidity_u,
    ]);
    let mut assumptions = vec![AirAssumption::CarbonDioxide];
    if !air.is_as_published() {
        assumptions.push(AirAssumption::BeyondPublished);
    }
    let estimate = if reading.humidity.is_some() {
        normal(found.value, u)?
    } else {
        assumptions.push(AirAssumption::AnyHumidity);
        Estimate::between(
            at(100.0)?.density()?,
            at(0.0)?.density()?,
            Uncertainty::from_number(u)?,
        )?
    };
    of(estimate, DensityLaw::Cipm2007, assumptions)
}

/// The kelvin by which a thermometer may be off; a difference may be under nought, that may not.
pub(super) fn off_by(temperature_u: TemperatureDifference) -> Result<f64, AirError> {
    match temperature_u.kelvin() {
        got if got < 0.0 => Err(AirError::TemperatureUncertainty { got }),
        kelvin => Ok(kelvin),
    }
}

/// Density by the standard atmosphere of a height, for which weather and season leave 5.3 % of standard
/// uncertainty.
///
/// # Errors
/// [`AirError::Quantity`] never for an [`Altitude`].
pub fn density_at(altitude: Altitude) -> Result<AirDensity, AirError> {
    let value = standard_air(altitude)?.density.kilograms_per_cubic_metre();
    of(
        normal(value, WEATHER_SHARE * value)?,
        DensityLaw::Iso2533,
        vec![AirAssumption::Weather],
    )
}

/// Density by CIPM-2007 from a height and a temperature, where no barometer was read: the pressure is that of
/// the standard atmosphere, for which weather leaves 1 kPa of standard uncertainty.
///
/// # Errors
/// As [`density`].
///
/// ```
/// use lashwork::mixture::air::{AirAssumption, density_at, density_at_temperature};
/// use lashwork::quantity::{Altitude, Temperature, TemperatureDifference};
/// let (pass, warm) = (Altitude::parse("1500 m")?, Temperature::parse("25 C")?);
/// let read = density_at_temperature(pass, warm, TemperatureDifference::from_kelvin(1.0)?, None)?;
/// assert!(read.assumptions.contains(&AirAssumption::WeatherPressure));
/// let by_map = density_at(pass)?;
/// let u = |density: &lashwork::mixture::air::AirDensity| density.density.normal_uncertainty().number();
/// assert!(u(&read) < u(&by_map), "a thermometer takes most of the doubt away");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn density_at_temperature(
    altitude: Altitude,
    temperature: Temperature,
    temperature_u: TemperatureDifference,
    humidity: Option<Estimate<RelativeHumidity>>,
) -> Result<AirDensity, AirError> {
    let pressure = standard_air(altitude)?.pressure.kilopascals();
    let mut found = density(&AirReading {
        pressure: normal(pressure, WEATHER_KILOPASCALS)?,
        temperature,
        temperature_u,
        humidity,
    })?;
    found.assumptions.push(AirAssumption::WeatherPressure);
    Ok(found)
}

fn of(
    density: Estimate<Density>,
    law: DensityLaw,
    assumptions: Vec<AirAssumption>,
) -> Result<AirDensity, AirError> {
    let middle = density.centre().ok_or(AirError::OneSided {
        what: "the density",
    })?;
    let sea = standard_air(Altitude::from_metres(0.0)?)?.density;
    Ok(AirDensity {
        ratio: middle.kilograms_per_cubic_metre() / sea.kilograms_per_cubic_metre(),
        altitude: density_altitude(middle).ok(),
        density,
        law,
        assumptions,
    })
}

/// How far the two laws differ for the dry air of the standard atmosphere, as a part: less than a
/// thousandth.
///
/// # Errors
/// [`AirError::Pressure`], [`AirError::Temperature`] far up.
///
/// ```
/// use lashwork::mixture::air::laws_differ_by;
/// use lashwork::quantity::Altitude;
/// assert!(laws_differ_by(Altitude::from_metres(1000.0)?)?.abs() < 1e-3);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn laws_differ_by(altitude: Altitude) -> Result<f64, AirError> {
    let standard = standard_air(altitude)?;
    let air = MoistAir::new(standard.pressure, standard.temperature, dry()?)?;
    Ok(air.sloped().value / standard.density.kilograms_per_cubic_metre() - 1.0)
}
