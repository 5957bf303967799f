//! Temperature as a point, temperature difference as an amount.
//!
//! # Source
//! 0 C = 273.15 K, 1 F = 5/9 K, 32 F = 0 C (SI brochure; NIST SP 811).

use super::error::{check, within};
use super::si;
use super::{QuantityError, TemperatureUnit, Written};
use alloc::string::String;
use core::marker::PhantomData;
use core::ops::{Add, Sub};
use core::str::FromStr;
use serde::Serialize;
use serde::ser::{SerializeMap, Serializer};
use uom::si::f64::{TemperatureInterval, ThermodynamicTemperature};
use uom::si::temperature_interval::kelvin as kelvin_amount;
use uom::si::thermodynamic_temperature::kelvin;

pub(super) const ZERO_CELSIUS_IN_KELVIN: f64 = 273.15;
const AMOUNT: &str = "temperature difference";
const AMOUNT_UNITS: &str = "K, C or F (as a difference)";

/// How hot something is; a point on the scale.
///
/// ```
/// use lashwork::quantity::Temperature;
/// assert!((Temperature::parse("68 F")?.celsius() - 20.0).abs() < 1e-12);
/// assert!(Temperature::parse("-300 C").is_err());
/// assert!(Temperature::parse("20").is_err());
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
/// A temperature is not a difference:
/// ```compile_fail
/// use lashwork::quantity::{Temperature, TemperatureDifference};
/// let rise: TemperatureDifference = Temperature::from_celsius(20.0).unwrap();
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Temperature(ThermodynamicTemperature);

impl Temperature {
    /// Greatest temperature accepted, in degrees Celsius: above the melting point of any engine part.
    pub const MAX_CELSIUS: f64 = 2000.0;

    const MIN_CELSIUS: f64 = -ZERO_CELSIUS_IN_KELVIN;

    /// Whether it can be so many degrees Celsius.
    #[inline]
    pub(crate) const fn can_be(celsius: f64) -> bool {
        within(celsius, Self::MIN_CELSIUS, Self::MAX_CELSIUS)
    }

    /// Kelvin of degrees Celsius, as they are kept.
    #[inline]
    pub(crate) const fn kelvin_of(celsius: f64) -> f64 {
        celsius + ZERO_CELSIUS_IN_KELVIN
    }

    /// Takes degrees Celsius.
    ///
    /// # Errors
    /// [`QuantityError::OutOfRange`] below absolute zero, above 2000 C or not finite.
    pub fn from_celsius(celsius: f64) -> Result<Self, QuantityError> {
        let c = check(
            "temperature",
            "C",
            celsius,
            Self::MIN_CELSIUS,
            Self::MAX_CELSIUS,
        )?;
        Ok(Self(ThermodynamicTemperature::new::<kelvin>(
            Self::kelvin_of(c),
        )))
    }

    /// The standard reference temperature of dimensions, 20 C.
    ///
    /// # Source
    /// ISO 1.
    ///
    /// ```
    /// use lashwork::quantity::Temperature;
    /// assert_eq!(Temperature::ISO_1.celsius(), 20.0);
    /// ```
    pub const ISO_1: Self = Self::of_celsius::<20>();

    /// Takes whole degrees Celsius; what is out of range does not compile.
    ///
    /// ```
    /// use lashwork::quantity::Temperature;
    /// const FROST: Temperature = Temperature::of_celsius::<0>();
    /// assert_eq!(FROST.kelvin(), 273.15);
    /// ```
    /// ```compile_fail
    /// use lashwork::quantity::Temperature;
    /// let impossible = Temperature::of_celsius::<-274>();
    /// ```
    #[must_use]
    pub const fn of_celsius<const CELSIUS: i32>() -> Self {
        const { assert!(Self::can_be(CELSIUS as f64)) };
        Self(ThermodynamicTemperature {
            dimension: PhantomData,
            units: PhantomData,
            value: Self::kelvin_of(CELSIUS as f64),
        })
    }

    /// Reads text such as `20 C`, `68 F`, `293.15 K`.
    ///
    /// # Errors
    /// [`QuantityError`]: not a number, no unit, unknown unit, below absolute zero.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        let written = Written::read("temperature", text, TemperatureUnit::ACCEPTED)?;
        Self::from_number(written.value(), written.unit())
    }

    /// Takes a number and its unit.
    ///
    /// # Errors
    /// [`QuantityError::UnknownUnit`], [`QuantityError::OutOfRange`].
    pub fn from_number(value: f64, unit: &str) -> Result<Self, QuantityError> {
        Self::from_value(value, TemperatureUnit::parse("temperature", unit)?)
    }

    /// Degrees Celsius.
    #[must_use]
    pub fn celsius(self) -> f64 {
        self.0.get::<kelvin>() - ZERO_CELSIUS_IN_KELVIN
    }

    /// Kelvin.
    #[must_use]
    pub fn kelvin(self) -> f64 {
        self.0.get::<kelvin>()
    }

    /// Degrees Fahrenheit.
    #[must_use]
    pub fn fahrenheit(self) -> f64 {
        self.celsius() * 9.0 / 5.0 + 32.0
    }
}

/// An amount of heating or cooling between two temperatures.
///
/// ```
/// use lashwork::quantity::{Temperature, TemperatureDifference};
/// let rise = Temperature::from_celsius(95.0)? - Temperature::from_celsius(20.0)?;
/// assert_eq!(rise.kelvin(), 75.0);
/// assert_eq!(TemperatureDifference::parse("9 F")?.kelvin(), 5.0);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct TemperatureDifference(TemperatureInterval);

impl TemperatureDifference {
    /// Greatest size either way, in kelvin.
    pub const MAX_KELVIN: f64 = 2500.0;

    /// Whether it can be so many kelvin.
    #[inline]
    pub(crate) const fn can_be(amount: f64) -> bool {
        within(amount, -Self::MAX_KELVIN, Self::MAX_KELVIN)
    }

    /// Takes whole kelvin; what is out of range does not compile.
    ///
    /// ```
    /// use lashwork::quantity::TemperatureDifference;
    /// assert_eq!(TemperatureDifference::of_kelvin::<2>().kelvin(), 2.0);
    /// ```
    #[must_use]
    pub const fn of_kelvin<const KELVIN: i32>() -> Self {
        const { assert!(Self::can_be(KELVIN as f64)) };
        Self(TemperatureInterval {
            dimension: PhantomData,
            units: PhantomData,
            value: KELVIN as f64,
        })
    }

    /// Takes kelvin (the same amount as in degrees Celsius).
    ///
    /// # Errors
    /// [`QuantityError::OutOfRange`] if not finite or larger than 2500 K.
    pub fn from_kelvin(amount: f64) -> Result<Self, QuantityError> {
        let k = check(AMOUNT, "K", amount, -Self::MAX_KELVIN, Self::MAX_KELVIN)?;
        Ok(Self(TemperatureInterval::new::<kelvin_amount>(k)))
    }

    /// Reads text such as `5 K`, `5 C`, `9 F`.
    ///
    /// # Errors
    /// [`QuantityError`]: not a number, no unit, unknown unit, out of range.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        let written = Written::read(AMOUNT, text, AMOUNT_UNITS)?;
        Self::from_number(written.value(), written.unit())
    }

    /// Takes a number and its unit.
    ///
    /// # Errors
    /// [`QuantityError::UnknownUnit`], [`QuantityError::OutOfRange`].
    pub fn from_number(value: f64, unit: &str) -> Result<Self, QuantityError> {
        match unit.trim_start_matches(['°', ' ']) {
            "K" | "kelvin" | "C" | "degC" => Self::from_kelvin(value),
            "F" | "degF" => Self::from_kelvin(value * 5.0 / 9.0),
            other => Err(QuantityError::UnknownUnit {
                what: AMOUNT,
                unit: String::from(other),
                accepted: AMOUNT_UNITS,
            }),
        }
    }

    /// For a formula that mixes dimensions.
    /// Text in a unit, to a tenth of a degree where that is not zero.
    ///
    /// ```
    /// use lashwork::quantity::{TemperatureDifference, TemperatureUnit};
    /// let five = TemperatureDifference::from_kelvin(5.0)?;
    /// assert_eq!(five.show(TemperatureUnit::Celsius), "5 K");
    /// assert_eq!(five.show(TemperatureUnit::Fahrenheit), "9 F");
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    #[must_use]
    pub fn show(self, unit: TemperatureUnit) -> String {
        let (value, symbol) = match unit {
            TemperatureUnit::Celsius | TemperatureUnit::Kelvin => (self.kelvin(), "K"),
            TemperatureUnit::Fahrenheit => (self.kelvin() * 9.0 / 5.0, "F"),
        };
        let tenths = alloc::format!("{value:.1}");
        let short = tenths.strip_suffix(".0").unwrap_or(&tenths);
        alloc::format!("{short} {symbol}")
    }

    pub(crate) fn si(self) -> si::TemperatureInterval {
        si::kelvins(self.kelvin())
    }

    /// Kelvin.
    #[must_use]
    pub fn kelvin(self) -> f64 {
        self.0.get::<kelvin_amount>()
    }
}

impl Sub for Temperature {
    type Output = TemperatureDifference;
    fn sub(self, other: Self) -> TemperatureDifference {
        let amount = self.0.get::<kelvin>() - other.0.get::<kelvin>();
        TemperatureDifference(TemperatureInterval::new::<kelvin_amount>(amount))
    }
}

impl Add<TemperatureDifference> for Temperature {
    type Output = Self;
    fn add(self, rise: TemperatureDifference) -> Self {
        Self(ThermodynamicTemperature::new::<kelvin>(
            self.0.get::<kelvin>() + rise.kelvin(),
        ))
    }
}

macro_rules! from_str {
    ($($name:ident),*) => {$(
        impl FromStr for $name {
            type Err = QuantityError;
            fn from_str(text: &str) -> Result<Self, QuantityError> {
                Self::parse(text)
            }
        }
    )*};
}
from_str!(Temperature, TemperatureDifference);

macro_rules! serialize_as {
    ($name:ident, $key:literal, $get:ident) => {
        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                let mut map = serializer.serialize_map(Some(1))?;
                map.serialize_entry($key, &self.$get())?;
                map.end()
            }
        }
    };
}
serialize_as!(Temperature, "celsius", celsius);
serialize_as!(TemperatureDifference, "kelvin", kelvin);
