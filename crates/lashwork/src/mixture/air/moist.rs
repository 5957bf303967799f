//! Density of moist air by CIPM-2007.

use super::AirError;
use crate::quantity::{AbsolutePressure, Density, QuantityError, RelativeHumidity, Temperature};
use serde::Serialize;
use uom::si::f64::{MolarHeatCapacity, MolarMass, Pressure, Ratio, TemperatureInterval};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::molar_heat_capacity::joule_per_kelvin_mole;
use uom::si::molar_mass::gram_per_mole;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::temperature_interval::kelvin;

/// Gas constant of CIPM-2007 in J/(mol K).
const GAS_CONSTANT: f64 = 8.314_472;
/// Dry air with 400 ppm of carbon dioxide, and water, in g/mol.
const DRY_AIR: f64 = 28.965_46;
const WATER: f64 = 18.015_28;
/// Pressures (kPa) and temperatures (C) of air that an engine breathes.
const PRESSURES: (f64, f64) = (20.0, 120.0);
const TEMPERATURES: (f64, f64) = (-60.0, 80.0);
/// Pressures (kPa) and temperatures (C) for which the formula was published; from memory.
const PUBLISHED_PRESSURES: (f64, f64) = (60.0, 110.0);
const PUBLISHED_TEMPERATURES: (f64, f64) = (15.0, 27.0);

/// Air as it is: pressure, temperature, humidity.
///
/// ```
/// use lashwork::mixture::air::MoistAir;
/// use lashwork::quantity::{AbsolutePressure, RelativeHumidity, Temperature};
/// let air = MoistAir::new(
///     AbsolutePressure::parse("1013.25 mbar")?,
///     Temperature::from_celsius(20.0)?,
///     RelativeHumidity::parse("50 %")?,
/// )?;
/// assert!((air.density()?.kilograms_per_cubic_metre() - 1.199_314).abs() < 1e-6);
/// let vacuum = AbsolutePressure::parse("20 inHg")?;
/// let hot = Temperature::from_celsius(250.0)?;
/// assert!(MoistAir::new(vacuum, hot, RelativeHumidity::parse("0 %")?).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct MoistAir {
    pressure: AbsolutePressure,
    temperature: Temperature,
    humidity: RelativeHumidity,
}

/// A density and its slopes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct SlopedDensity {
    /// In kg/m3.
    pub(super) value: f64,
    /// For each kilopascal.
    pub(super) by_pressure: f64,
    /// For each kelvin.
    pub(super) by_temperature: f64,
    /// For each per cent of humidity.
    pub(super) by_humidity: f64,
}

impl MoistAir {
    /// Takes the pressure of the place, not that of a barometer set to sea level
    /// ([`Barometer`](super::Barometer)).
    ///
    /// # Errors
    /// [`AirError::Pressure`] outside 20 to 120 kPa, [`AirError::Temperature`] outside -60 to 80 C.
    pub fn new(
        pressure: AbsolutePressure,
        temperature: Temperature,
        humidity: RelativeHumidity,
    ) -> Result<Self, AirError> {
        let (kpa, celsius) = (pressure.kilopascals(), temperature.celsius());
        if !within(kpa, PRESSURES) {
            let (min, max) = PRESSURES;
            return Err(AirError::Pressure { got: kpa, min, max });
        }
        if !within(celsius, TEMPERATURES) {
            let (min, max) = TEMPERATURES;
            return Err(AirError::Temperature {
                got: celsius,
                min,
                max,
            });
        }
        Ok(Self {
            pressure,
            temperature,
            humidity,
        })
    }

    /// Pressure of the place.
    #[must_use]
    pub const fn pressure(&self) -> AbsolutePressure {
        self.pressure
    }

    /// Temperature.
    #[must_use]
    pub const fn temperature(&self) -> Temperature {
        self.temperature
    }

    /// Humidity.
    #[must_use]
    pub const fn humidity(&self) -> RelativeHumidity {
        self.humidity
    }

    /// Whether the formula was published for such air: 600 to 1100 hPa, 15 to 27 C (from memory).
    ///
    /// ```
    /// use lashwork::mixture::air::MoistAir;
    /// use lashwork::quantity::{AbsolutePressure, RelativeHumidity, Temperature};
    /// let at = |celsius| MoistAir::new(
    ///     AbsolutePressure::parse("1 bar").unwrap(),
    ///     Temperature::from_celsius(celsius).unwrap(),
    ///     RelativeHumidity::parse("50 %").unwrap(),
    /// );
    /// assert!(at(20.0)?.is_as_published() && !at(35.0)?.is_as_published());
    /// # Ok::<(), lashwork::mixture::air::AirError>(())
    /// ```
    #[must_use]
    pub fn is_as_published(&self) -> bool {
        within(self.pressure.kilopascals(), PUBLISHED_PRESSURES)
            && within(self.temperature.celsius(), PUBLISHED_TEMPERATURES)
    }

    /// Density by CIPM-2007, with 400 ppm of carbon dioxide.
    ///
    /// # Errors
    /// [`AirError::Quantity`] never for air of [`Self::new`].
    ///
    /// # Source
    /// A. Picard et al., Metrologia 45 (2008) 149-155.
    pub fn density(&self) -> Result<Density, AirError> {
        Ok(Density::from_kilograms_per_cubic_metre(
            self.sloped().value,
        )?)
    }

    /// The density and its slopes.
    pub(super) fn sloped(&self) -> SlopedDensity {
        let p = self.pressure.kilopascals() * 1e3;
        let (celsius, t) = (self.temperature.celsius(), self.temperature.kelvin());
        let h = self.humidity.percent() / 100.0;
        // Saturated vapour, and how far it differs from an ideal gas.
        let (a, b, c, d) = (
            1.237_884_7e-5,
            -1.912_131_6e-2,
            33.937_110_47,
            -6.343_164_5e3,
        );
        let saturated = libm::exp(a * t * t + b * t + c + d / t);
        let saturated_by_t = saturated * (2.0 * a * t + b - d / (t * t));
        let enhancement = 1.000_62 + 3.14e-8 * p + 5.6e-7 * celsius * celsius;
        let vapour_by_h = enhancement * saturated / p;
        let x = h * vapour_by_h;
        let x_by_p = h * saturated * (3.14e-8 / p - enhancement / (p * p));
        let x_by_t = h * (enhancement * saturated_by_t + 2.0 * 5.6e-7 * celsius * saturated) / p;
        // Compressibility.
        let (a0, a1, a2) = (1.581_23e-6, -2.933_1e-8, 1.104_3e-10);
        let (b0, b1) = (5.707e-6, -2.051e-8);
        let (c0, c1) = (1.989_8e-4, -2.376e-6);
        let (d, e) = (1.83e-11, -0.765e-8);
        let first = a0
            + a1 * celsius
            + a2 * celsius * celsius
            + (b0 + b1 * celsius) * x
            + (c0 + c1 * celsius) * x * x;
        let second = d + e * x * x;
        let q = p / t;
        let z = 1.0 - q * first + q * q * second;
        let z_by_x = -q * (b0 + b1 * celsius + 2.0 * (c0 + c1 * celsius) * x) + q * q * 2.0 * e * x;
        let z_by_p = -first / t + 2.0 * q / t * second + z_by_x * x_by_p;
        let z_by_t = q / t * first
            - q * (a1 + 2.0 * a2 * celsius + b1 * x + c1 * x * x)
            - 2.0 * q * q / t * second
            + z_by_x * x_by_t;
        let lighter = 1.0 - WATER / DRY_AIR;
        let rest = 1.0 - x * lighter;
        let value = density(p, t, z, rest);
        SlopedDensity {
            value,
            by_pressure: 1e3 * value * (1.0 / p - z_by_p / z - lighter * x_by_p / rest),
            by_temperature: value * (-1.0 / t - z_by_t / z - lighter * x_by_t / rest),
            by_humidity: 0.01 * value * vapour_by_h * (-z_by_x / z - lighter / rest),
        }
    }
}

/// The gas law, in pascals and kelvin, with compressibility and the share of the dry mass that is left.
fn density(pascals: f64, kelvins: f64, z: f64, rest: f64) -> f64 {
    let mass = MolarMass::new::<gram_per_mole>(DRY_AIR) * Ratio::new::<ratio>(rest);
    let energy = MolarHeatCapacity::new::<joule_per_kelvin_mole>(GAS_CONSTANT)
        * TemperatureInterval::new::<kelvin>(kelvins)
        * Ratio::new::<ratio>(z);
    let found: uom::si::f64::MassDensity = Pressure::new::<pascal>(pascals) * mass / energy;
    found.get::<kilogram_per_cubic_meter>()
}

pub(super) fn within(got: f64, (min, max): (f64, f64)) -> bool {
    (min..=max).contains(&got)
}

/// The air of the standard atmosphere holds no water.
pub(super) fn dry() -> Result<RelativeHumidity, QuantityError> {
    RelativeHumidity::from_percent(0.0)
}
