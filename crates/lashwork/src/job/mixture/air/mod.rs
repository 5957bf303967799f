//! How dense the air around is: what jets, gas and gauge lean on.

pub(super) mod sheet;

use crate::job::assumptions::Assumptions;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::mixture::air::{
    AirAssumption, AirDensity, AirError, AirReading, Barometer, DensityLaw, density, density_at,
    density_at_temperature,
};
use crate::quantity::{
    AbsolutePressure, Altitude, Density, RelativeHumidity, Temperature, TemperatureDifference,
};
use crate::tolerance::{Estimate, Uncertainty};
use alloc::format;
use alloc::string::{String, ToString};
use serde::Serialize;

/// Standard uncertainty of a barometer and of a thermometer where none is stated. Common practice, no
/// source.
const BAROMETER_KILOPASCALS: f64 = 0.3;
const THERMOMETER_KELVIN: f64 = 1.0;

/// The air the engine breathes: a barometer and a thermometer, or the height, with a thermometer or alone.
///
/// ```
/// use lashwork::job::mixture::AirAround;
/// use lashwork::quantity::Altitude;
/// let mut air = AirAround::default();
/// air.altitude = Some(Altitude::from_metres(1500.0)?);
/// assert!(air.barometer.is_none());
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct AirAround {
    /// What a barometer shows, and what it is set to.
    pub barometer: Option<Barometer>,
    /// How high the place lies.
    pub altitude: Option<Altitude>,
    /// The temperature where the engine breathes.
    pub temperature: Option<Temperature>,
    /// The humidity.
    pub humidity: Option<RelativeHumidity>,
}

/// The air around, worked out.
pub(in crate::job) struct Around {
    /// Its density.
    pub(super) density: AirDensity,
    /// Its pressure, where a barometer or a height says it.
    pub(in crate::job) pressure: AbsolutePressure,
    /// What does not fit about the barometer.
    pub(super) doubt: Option<String>,
}

/// The air around.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct AirAroundReport {
    /// Its density.
    pub density: Option<Density>,
    /// Standard uncertainty of that, in kilograms a cubic metre.
    pub density_u: f64,
    /// Its pressure.
    pub pressure: AbsolutePressure,
    /// The density over that of the standard atmosphere at sea level.
    pub ratio: f64,
    /// The height at which the standard atmosphere is as dense.
    pub density_altitude: Option<Altitude>,
    /// Which formula said so.
    pub law: DensityLaw,
    /// The same in words.
    pub text: String,
    /// What does not fit about the barometer.
    pub doubt: Option<String>,
}

/// Works it out; `place` is where it was stated.
pub(in crate::job) fn around(
    asked: &AirAround,
    place: Place,
    assumptions: &mut Assumptions,
    problems: &mut alloc::vec::Vec<Problem>,
) -> Option<Around> {
    let found = match (asked.barometer, asked.temperature, asked.altitude) {
        (Some(barometer), Some(temperature), height) => {
            by_readings(barometer, temperature, height, asked.humidity, assumptions)
        }
        (None, Some(temperature), Some(height)) => {
            by_height_and_thermometer(height, temperature, asked.humidity)
        }
        (None, None, Some(height)) if asked.humidity.is_none() => by_height(height),
        _ => {
            problems.push(Problem::new(
                place,
                "mixture.air-not-stated",
                "the air is stated neither by barometer and temperature nor by the height",
                "give \"barometer\" with what it is set to and \"temperature\", or \"altitude\", with \"temperature\" or alone",
            ));
            return None;
        }
    };
    match found {
        Ok(around) => {
            assumptions.add_all(&around.density.assumptions);
            Some(around)
        }
        Err(refused) => {
            problems.push(Problem::at(place, &refused));
            None
        }
    }
}

fn by_readings(
    barometer: Barometer,
    temperature: Temperature,
    height: Option<Altitude>,
    humidity: Option<RelativeHumidity>,
    assumptions: &mut Assumptions,
) -> Result<Around, AirError> {
    let (pressure, doubt) = barometer.station(height)?;
    let u = Uncertainty::from_number(BAROMETER_KILOPASCALS)?;
    assumptions.add(
        "mixture.air-readings",
        format!(
            "barometer and thermometer are taken as right within {BAROMETER_KILOPASCALS} kPa and {THERMOMETER_KELVIN} kelvin (standard); common practice, no source"
        ),
    );
    let humidity = humidity.map(|it| Estimate::between(it, it, Uncertainty::ZERO));
    let density = density(&AirReading {
        pressure: Estimate::between(pressure, pressure, u)?,
        temperature,
        temperature_u: TemperatureDifference::from_kelvin(THERMOMETER_KELVIN)?,
        humidity: humidity.transpose()?,
    })?;
    Ok(Around {
        density,
        pressure,
        doubt: doubt.map(|doubt| doubt.to_string()),
    })
}

fn by_height_and_thermometer(
    height: Altitude,
    temperature: Temperature,
    humidity: Option<RelativeHumidity>,
) -> Result<Around, AirError> {
    let humidity = humidity.map(|it| Estimate::between(it, it, Uncertainty::ZERO));
    let u = TemperatureDifference::from_kelvin(THERMOMETER_KELVIN)?;
    Ok(Around {
        density: density_at_temperature(height, temperature, u, humidity.transpose()?)?,
        pressure: crate::mixture::air::standard_air(height)?.pressure,
        doubt: None,
    })
}

fn by_height(height: Altitude) -> Result<Around, AirError> {
    Ok(Around {
        density: density_at(height)?,
        pressure: crate::mixture::air::standard_air(height)?.pressure,
        doubt: None,
    })
}

/// What the report says of it.
pub(super) fn told(around: &Around) -> AirAroundReport {
    let found = &around.density;
    let density = found.density.centre();
    let u = found.density.normal_uncertainty().number();
    let by = match found.law {
        DensityLaw::Cipm2007 if found.assumptions.contains(&AirAssumption::WeatherPressure) => {
            "by CIPM-2007 from height and thermometer"
        }
        DensityLaw::Cipm2007 => "by CIPM-2007",
        DensityLaw::Iso2533 => "by ISO 2533 from the height alone",
    };
    let as_at = found.altitude.map(|height| {
        format!(
            ", as at {:.0} m of the standard atmosphere",
            height.metres()
        )
    });
    let value = density.map_or(0.0, Density::kilograms_per_cubic_metre);
    AirAroundReport {
        density,
        density_u: u,
        pressure: around.pressure,
        ratio: found.ratio,
        density_altitude: found.altitude,
        law: found.law,
        text: format!(
            "{value:.3} kg/m3, u {u:.3}, {:.0} % of sea level{}, {by}",
            100.0 * found.ratio,
            as_at.unwrap_or_default()
        ),
        doubt: around.doubt.clone(),
    }
}
