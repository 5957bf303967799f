//! A dwell as it is written: degrees or per cent.

use super::{BreakerError, Dwell, Lobes, MeterScale};
use crate::quantity::{QuantityError, Written};
use alloc::string::String;
use core::fmt;
use core::str::FromStr;
use serde::{Serialize, Serializer};

/// A dwell as a meter shows it or a book prints it; what it is depends on the lobes, and of degrees also on
/// the scale.
///
/// ```
/// use lashwork::ignition::breaker::{DwellShown, Lobes};
/// let four = Lobes::new(4)?;
/// assert_eq!(DwellShown::parse("50 %")?.dwell(None, four)?.degrees(), 45.0);
/// assert_eq!(DwellShown::parse("45 deg")?.dwell(None, four)?.degrees(), 45.0);
/// // On the scale for six cylinders.
/// let six = Some(Lobes::new(6)?);
/// assert_eq!(DwellShown::parse("30 deg")?.dwell(six, four)?.degrees(), 45.0);
/// assert!(DwellShown::parse("45").is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum DwellShown {
    /// Degrees.
    Degrees(f64),
    /// Per cent.
    Percent(f64),
}

const UNITS: &str = "deg or %";

impl DwellShown {
    /// Reads text such as `60 deg`, `66.7 %`.
    ///
    /// # Errors
    /// [`QuantityError`]: not a number, no unit, unknown unit.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        let written = Written::read("dwell", text, UNITS)?;
        Self::from_number(written.value(), written.unit())
    }

    /// Takes a number and its unit; whether it can be is asked of [`Self::dwell`].
    ///
    /// # Errors
    /// [`QuantityError::UnknownUnit`].
    pub fn from_number(value: f64, unit: &str) -> Result<Self, QuantityError> {
        match unit {
            "deg" | "°" => Ok(Self::Degrees(value)),
            "%" | "percent" => Ok(Self::Percent(value)),
            other => Err(QuantityError::UnknownUnit {
                what: "dwell",
                unit: String::from(other),
                accepted: UNITS,
            }),
        }
    }

    /// The scale it is shown on, if the meter is switched to so many cylinders; to those of the engine if
    /// that is not stated.
    #[must_use]
    pub fn scale(self, cylinders: Option<Lobes>, lobes: Lobes) -> MeterScale {
        match self {
            Self::Degrees(_) => MeterScale::Cylinders(cylinders.unwrap_or(lobes)),
            Self::Percent(_) => MeterScale::Percent,
        }
    }

    /// The dwell over so many lobes, shown on a scale for so many cylinders.
    ///
    /// # Errors
    /// [`BreakerError::DwellBeyondPitch`], [`BreakerError::Percent`], [`BreakerError::Reading`];
    /// [`BreakerError::Quantity`] at or below zero.
    pub fn dwell(self, cylinders: Option<Lobes>, lobes: Lobes) -> Result<Dwell, BreakerError> {
        match (self, cylinders) {
            (Self::Percent(percent), _) => lobes.dwell_of_percent(percent),
            (Self::Degrees(degrees), None) => lobes.check(Dwell::from_degrees(degrees)?),
            (Self::Degrees(degrees), Some(cylinders)) => {
                MeterScale::Cylinders(cylinders).dwell(degrees, lobes)
            }
        }
    }
}

impl FromStr for DwellShown {
    type Err = QuantityError;
    fn from_str(text: &str) -> Result<Self, QuantityError> {
        Self::parse(text)
    }
}

impl fmt::Display for DwellShown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Degrees(degrees) => write!(f, "{degrees} deg"),
            Self::Percent(percent) => write!(f, "{percent} %"),
        }
    }
}

/// As text with its unit.
impl Serialize for DwellShown {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}
