//! Time that has gone by.

use super::error::check;
use super::{QuantityError, Written};
use alloc::string::String;
use core::str::FromStr;
use serde::Serialize;
use serde::ser::{SerializeMap, Serializer};
use uom::si::f64::Time;
use uom::si::time::minute;

const UNITS: &str = "min, s or h";

/// How long something has lasted, or will; never negative.
///
/// ```
/// use lashwork::quantity::Elapsed;
/// assert_eq!(Elapsed::parse("1.5 h")?.minutes(), 90.0);
/// assert_eq!(Elapsed::parse("90 s")?.minutes(), 1.5);
/// assert!(Elapsed::parse("-1 min").is_err());
/// assert!(Elapsed::parse("10").is_err());
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Elapsed(Time);

impl Elapsed {
    /// Greatest time accepted, in minutes: two weeks, longer than any engine cools.
    pub const MAX_MINUTES: f64 = 20_160.0;

    /// Takes minutes.
    ///
    /// # Errors
    /// [`QuantityError::OutOfRange`] below 0, above two weeks or not finite.
    pub fn from_minutes(minutes: f64) -> Result<Self, QuantityError> {
        let minutes = check("time", "min", minutes, 0.0, Self::MAX_MINUTES)?;
        Ok(Self(Time::new::<minute>(minutes)))
    }

    /// Reads text such as `10 min`, `90 s`, `1.5 h`.
    ///
    /// # Errors
    /// [`QuantityError`]: not a number, no unit, unknown unit, out of range.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        let written = Written::read("time", text, UNITS)?;
        Self::from_number(written.value(), written.unit())
    }

    /// Takes a number and its unit.
    ///
    /// # Errors
    /// [`QuantityError::UnknownUnit`], [`QuantityError::OutOfRange`].
    pub fn from_number(value: f64, unit: &str) -> Result<Self, QuantityError> {
        match unit {
            "min" | "minutes" => Self::from_minutes(value),
            "s" => Self::from_minutes(value / 60.0),
            "h" => Self::from_minutes(value * 60.0),
            other => Err(QuantityError::UnknownUnit {
                what: "time",
                unit: String::from(other),
                accepted: UNITS,
            }),
        }
    }

    /// Minutes.
    #[must_use]
    pub fn minutes(self) -> f64 {
        self.0.get::<minute>()
    }
}

impl FromStr for Elapsed {
    type Err = QuantityError;
    fn from_str(text: &str) -> Result<Self, QuantityError> {
        Self::parse(text)
    }
}

impl Serialize for Elapsed {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(1))?;
        map.serialize_entry("minutes", &self.minutes())?;
        map.end()
    }
}
