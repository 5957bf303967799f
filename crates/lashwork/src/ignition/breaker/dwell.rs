//! How far the cam turns while the contacts are closed.

use crate::quantity::{DistributorAngle, QuantityError, check};
use core::fmt;
use core::ops::{Add, Sub};
use core::str::FromStr;
use serde::Serialize;
use serde::ser::{SerializeMap, Serializer};

/// How far the breaker's cam turns while the contacts are closed, in degrees of its own shaft.
///
/// How much of it there can be depends on the lobes: see [`Lobes::check`](super::Lobes::check).
///
/// ```
/// use lashwork::ignition::breaker::Dwell;
/// assert_eq!(Dwell::parse("60 deg")?.degrees(), 60.0);
/// assert!(Dwell::parse("60").is_err() && Dwell::from_degrees(0.0).is_err());
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
/// It is not a turn of the crank:
/// ```compile_fail
/// use lashwork::ignition::breaker::Dwell;
/// use lashwork::quantity::CrankAngle;
/// let turn: CrankAngle = Dwell::parse("60 deg").unwrap();
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Dwell(f64);

impl Dwell {
    /// Least dwell: contacts that never close make no spark.
    pub const MIN_DEGREES: f64 = 0.001;
    /// Greatest dwell: with one lobe, just under a turn.
    pub const MAX_DEGREES: f64 = 359.999;

    /// Takes degrees of the cam's shaft.
    ///
    /// # Errors
    /// [`QuantityError::OutOfRange`] if not finite, at or below 0, or a turn or more.
    pub fn from_degrees(degrees: f64) -> Result<Self, QuantityError> {
        check(
            "dwell",
            "deg",
            degrees,
            Self::MIN_DEGREES,
            Self::MAX_DEGREES,
        )
        .map(Self)
    }

    /// Reads text such as `60 deg`; per cent need the lobes
    /// ([`Lobes::dwell_of_percent`](super::Lobes::dwell_of_percent)).
    ///
    /// # Errors
    /// [`QuantityError`]: not a number, no unit, unknown unit, out of range.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        Self::from_degrees(DistributorAngle::parse(text)?.degrees())
    }

    /// Takes a number and its unit.
    ///
    /// # Errors
    /// [`QuantityError::UnknownUnit`], [`QuantityError::OutOfRange`].
    pub fn from_number(value: f64, unit: &str) -> Result<Self, QuantityError> {
        Self::from_degrees(DistributorAngle::from_number(value, unit)?.degrees())
    }

    /// Degrees of the cam's shaft.
    #[must_use]
    pub const fn degrees(self) -> f64 {
        self.0
    }
}

/// A change of dwell; positive is more dwell, a narrower gap, a later spark.
///
/// ```
/// use lashwork::ignition::breaker::{Dwell, DwellChange};
/// let less = Dwell::from_degrees(57.0)? - Dwell::from_degrees(60.0)?;
/// assert_eq!(less, DwellChange::from_degrees(-3.0)?);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct DwellChange(f64);

impl DwellChange {
    /// Greatest size either way, in degrees: a turn.
    pub const MAX_DEGREES: f64 = 360.0;

    /// Takes degrees of the cam's shaft.
    ///
    /// # Errors
    /// [`QuantityError::OutOfRange`] if not finite or over a turn.
    pub fn from_degrees(degrees: f64) -> Result<Self, QuantityError> {
        let most = Self::MAX_DEGREES;
        check("change of dwell", "deg", degrees, -most, most).map(Self)
    }

    /// Reads text such as `2 deg`, `-1.5 deg`.
    ///
    /// # Errors
    /// [`QuantityError`]: not a number, no unit, unknown unit, out of range.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        Self::from_degrees(DistributorAngle::parse(text)?.degrees())
    }

    /// Takes a number and its unit.
    ///
    /// # Errors
    /// [`QuantityError::UnknownUnit`], [`QuantityError::OutOfRange`].
    pub fn from_number(value: f64, unit: &str) -> Result<Self, QuantityError> {
        Self::from_degrees(DistributorAngle::from_number(value, unit)?.degrees())
    }

    /// Degrees of the cam's shaft.
    #[must_use]
    pub const fn degrees(self) -> f64 {
        self.0
    }

    pub(super) const fn computed(degrees: f64) -> Self {
        Self(degrees)
    }
}

impl Sub for Dwell {
    type Output = DwellChange;
    fn sub(self, other: Self) -> DwellChange {
        DwellChange(self.0 - other.0)
    }
}

/// Like a sum, it is not held to the range again.
impl Add<DwellChange> for Dwell {
    type Output = Self;
    fn add(self, change: DwellChange) -> Self {
        Self(self.0 + change.0)
    }
}

macro_rules! in_degrees {
    ($($name:ident),+) => {$(
        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "{} deg", self.0)
            }
        }

        impl FromStr for $name {
            type Err = QuantityError;
            fn from_str(text: &str) -> Result<Self, QuantityError> {
                Self::parse(text)
            }
        }

        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                let mut map = serializer.serialize_map(Some(1))?;
                map.serialize_entry("deg", &self.0)?;
                map.end()
            }
        }
    )+};
}
in_degrees!(Dwell, DwellChange);

#[cfg(feature = "schema")]
mod schema {
    use super::{Dwell, DwellChange};
    use crate::quantity::DistributorAngle;
    use alloc::borrow::Cow;
    use schemars::{JsonSchema, Schema, SchemaGenerator};

    macro_rules! like_an_angle {
        ($($name:ident),+) => {$(
            impl JsonSchema for $name {
                fn schema_name() -> Cow<'static, str> {
                    DistributorAngle::schema_name()
                }
                fn schema_id() -> Cow<'static, str> {
                    DistributorAngle::schema_id()
                }
                fn json_schema(generator: &mut SchemaGenerator) -> Schema {
                    DistributorAngle::json_schema(generator)
                }
            }
        )+};
    }
    like_an_angle!(Dwell, DwellChange);
}
