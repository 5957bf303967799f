//! Density of many readings in one call, from columns of plain numbers.

use super::answer::off_by;
use super::moist::MoistAir;
use super::{AirError, density_altitude};
use crate::quantity::{
    AbsolutePressure, Altitude, Density, RelativeHumidity, Temperature, TemperatureDifference,
};
use crate::tolerance::Uncertainty;
use crate::tolerance::known::together;

/// What is written for one reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DensityRow {
    /// Density in kg/m3; not a number for a refused row.
    pub density: f64,
    /// Its standard uncertainty.
    pub u: f64,
    /// Density altitude in metres; not a number outside -5000 to 20000 ft.
    pub altitude: f64,
}

/// Readings of the air with the same instruments.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AirColumns<'c> {
    /// Pressure of the place in kilopascals.
    pub kpa: &'c [f64],
    /// Temperature in degrees Celsius.
    pub celsius: &'c [f64],
    /// Humidity in per cent.
    pub percent: &'c [f64],
    /// Standard uncertainty of the pressures.
    pub pressure_u: Uncertainty<AbsolutePressure>,
    /// Standard uncertainty of the temperatures.
    pub temperature_u: TemperatureDifference,
    /// Standard uncertainty of the humidities.
    pub humidity_u: Uncertainty<RelativeHumidity>,
}

/// Reckons every row as [`density`](super::density) does, to the bit, and hands it to `write` with its number;
/// a row that is refused as well, with the reason. No memory is allocated unless a row is refused.
///
/// # Errors
/// [`AirError::ColumnLengths`] for columns of unequal lengths, [`AirError::TemperatureUncertainty`]; nothing is
/// written then.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::mixture::air::{AirColumns, density_columns};
/// use lashwork::quantity::TemperatureDifference;
/// use lashwork::tolerance::Uncertainty;
/// let columns = AirColumns {
///     kpa: &[101.325, 101.325],
///     celsius: &[20.0, 200.0],
///     percent: &[50.0, 50.0],
///     pressure_u: Uncertainty::from_number(0.1)?,
///     temperature_u: TemperatureDifference::from_kelvin(1.0)?,
///     humidity_u: Uncertainty::from_number(5.0)?,
/// };
/// let (mut found, mut refused) = (Vec::new(), Vec::new());
/// density_columns(&columns, |_, row, why| {
///     found.push(row.density);
///     refused.extend(why.map(|why| why.code()));
/// })?;
/// assert!((found[0] - 1.199_314).abs() < 1e-6 && found[1].is_nan());
/// assert_eq!(refused, ["mixture.air-temperature"]);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn density_columns(
    columns: &AirColumns<'_>,
    mut write: impl FnMut(usize, &DensityRow, Option<AirError>),
) -> Result<(), AirError> {
    let first = columns.kpa.len();
    for other in [columns.celsius.len(), columns.percent.len()] {
        if other != first {
            return Err(AirError::ColumnLengths { first, other });
        }
    }
    let kelvin_u = off_by(columns.temperature_u)?;
    let rows = columns.kpa.iter().zip(columns.celsius).zip(columns.percent);
    for (row, ((kpa, celsius), percent)) in rows.enumerate() {
        let one = || -> Result<DensityRow, AirError> {
            let found = MoistAir::new(
                AbsolutePressure::from_kilopascals(*kpa)?,
                Temperature::from_celsius(*celsius)?,
                RelativeHumidity::from_percent(*percent)?,
            )?
            .sloped();
            let density = Density::from_kilograms_per_cubic_metre(found.value)?;
            Ok(DensityRow {
                density: found.value,
                u: together([
                    found.by_pressure * columns.pressure_u.number(),
                    found.by_temperature * kelvin_u,
                    found.by_humidity * columns.humidity_u.number(),
                ]),
                altitude: density_altitude(density).map_or(f64::NAN, Altitude::metres),
            })
        };
        match one() {
            Ok(found) => write(row, &found, None),
            Err(why) => write(row, &REFUSED, Some(why)),
        }
    }
    Ok(())
}

const REFUSED: DensityRow = DensityRow {
    density: f64::NAN,
    u: f64::NAN,
    altitude: f64::NAN,
};
