//! One number in another unit, for those who do not keep a typed quantity.
//!
//! # Source
//! 1 in = 25.4 mm exactly (24 FR 5348, 1959); 0 C = 273.15 K, 1 F = 5/9 K, 32 F = 0 C (SI brochure;
//! NIST SP 811).

use super::temperature::ZERO_CELSIUS_IN_KELVIN;
use super::{LengthUnit, QuantityError, Temperature};
use alloc::string::String;

impl LengthUnit {
    /// The same length as a number of another unit; what is not finite stays so.
    ///
    /// One multiplication and one division by whole numbers, so it is off by one unit in the last
    /// place at most. Use [`Marked`](super::Marked) for what must stay exact.
    ///
    /// ```
    /// use lashwork::quantity::LengthUnit;
    /// assert_eq!(LengthUnit::Thou.convert(6.0, LengthUnit::Millimetre), 0.1524);
    /// assert_eq!(LengthUnit::Millimetre.convert(0.1524, LengthUnit::Inch), 0.006);
    /// ```
    #[must_use]
    pub fn convert(self, value: f64, to: Self) -> f64 {
        if self == to {
            return value;
        }
        value * self.nanometres() as f64 / to.nanometres() as f64
    }
}

/// A unit that a temperature is read in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TemperatureUnit {
    /// Degrees Celsius.
    Celsius,
    /// Degrees Fahrenheit.
    Fahrenheit,
    /// Kelvin.
    Kelvin,
}

impl TemperatureUnit {
    pub(super) const ACCEPTED: &'static str = "C, F or K";

    /// How the unit is shown.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Celsius => "C",
            Self::Fahrenheit => "F",
            Self::Kelvin => "K",
        }
    }

    /// Reads a unit symbol.
    ///
    /// # Errors
    /// [`QuantityError::UnknownUnit`].
    pub fn parse(what: &'static str, text: &str) -> Result<Self, QuantityError> {
        match text.trim_start_matches(['°', ' ']) {
            "C" | "degC" | "celsius" => Ok(Self::Celsius),
            "F" | "degF" | "fahrenheit" => Ok(Self::Fahrenheit),
            "K" | "kelvin" => Ok(Self::Kelvin),
            other => Err(QuantityError::UnknownUnit {
                what,
                unit: String::from(other),
                accepted: Self::ACCEPTED,
            }),
        }
    }
}

impl Temperature {
    /// Takes a number of a unit.
    ///
    /// # Errors
    /// [`QuantityError::OutOfRange`] as [`Temperature::from_celsius`].
    ///
    /// ```
    /// use lashwork::quantity::{Temperature, TemperatureUnit};
    /// let at = Temperature::from_value(68.0, TemperatureUnit::Fahrenheit)?;
    /// assert_eq!(at.value(TemperatureUnit::Celsius), 20.0);
    /// assert_eq!(at.value(TemperatureUnit::Kelvin), 293.15);
    /// assert!(Temperature::from_value(-1.0, TemperatureUnit::Kelvin).is_err());
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    pub fn from_value(value: f64, unit: TemperatureUnit) -> Result<Self, QuantityError> {
        Self::from_celsius(match unit {
            TemperatureUnit::Celsius => value,
            TemperatureUnit::Fahrenheit => (value - 32.0) * 5.0 / 9.0,
            TemperatureUnit::Kelvin => value - ZERO_CELSIUS_IN_KELVIN,
        })
    }

    /// The number in a unit.
    #[must_use]
    pub fn value(self, unit: TemperatureUnit) -> f64 {
        match unit {
            TemperatureUnit::Celsius => self.celsius(),
            TemperatureUnit::Fahrenheit => self.fahrenheit(),
            TemperatureUnit::Kelvin => self.kelvin(),
        }
    }

    /// Text in a unit with so many decimals.
    ///
    /// ```
    /// use lashwork::quantity::{Temperature, TemperatureUnit};
    /// let at = Temperature::from_celsius(-0.01)?;
    /// assert_eq!(at.show(TemperatureUnit::Celsius, 1), "0.0 C");
    /// assert_eq!(at.show(TemperatureUnit::Fahrenheit, 1), "32.0 F");
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    #[must_use]
    pub fn show(self, unit: TemperatureUnit, decimals: usize) -> String {
        let value = self.value(unit);
        let text = alloc::format!("{value:.decimals$} {}", unit.symbol());
        match text.strip_prefix('-') {
            // What rounds to zero is not below it.
            Some(rest) if rest.chars().all(|c| !('1'..='9').contains(&c)) => String::from(rest),
            _ => text,
        }
    }
}
