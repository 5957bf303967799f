//! Quantities that are one number in one base unit, with the other units people write them in.

/// Declares one: its base unit, its range, and what a number in each accepted unit is multiplied by. The
/// number is kept in the base unit, so that what goes in comes out as the same bits; `si` hands it to a
/// formula that mixes dimensions.
macro_rules! scalar_type {
    (
        $(#[$doc:meta])* $name:ident, $what:literal, $unit:literal as $key:literal, $range:expr,
        from $from:ident, get $get:ident, $accepted:literal { $($($written:literal)|+ => $factor:expr),+ },
        si $si:ident: $base:ident
    ) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            /// Least value, in the base unit.
            pub const MIN: f64 = $range.0;
            /// Greatest value, in the base unit.
            pub const MAX: f64 = $range.1;
            /// Symbol of the base unit.
            pub const UNIT: &'static str = $unit;

            #[doc = concat!("Takes a number in ", $unit, ".")]
            ///
            /// # Errors
            /// [`QuantityError::OutOfRange`](super::QuantityError::OutOfRange) if not finite or outside the
            /// type's range.
            pub fn $from(number: f64) -> Result<Self, super::QuantityError> {
                super::error::check($what, $unit, number, Self::MIN, Self::MAX).map(Self)
            }

            #[doc = concat!("Reads text with a unit: ", $accepted, ".")]
            ///
            /// # Errors
            /// [`QuantityError`](super::QuantityError): not a number, no unit, unknown unit, out of range.
            pub fn parse(text: &str) -> Result<Self, super::QuantityError> {
                let written = super::Written::read($what, text, $accepted)?;
                Self::from_number(written.value(), written.unit())
            }

            /// Takes a number and its unit.
            ///
            /// # Errors
            /// [`QuantityError::UnknownUnit`](super::QuantityError::UnknownUnit),
            /// [`QuantityError::OutOfRange`](super::QuantityError::OutOfRange).
            pub fn from_number(value: f64, unit: &str) -> Result<Self, super::QuantityError> {
                match unit {
                    $($($written)|+ => Self::$from(value * $factor),)+
                    other => Err(super::QuantityError::UnknownUnit {
                        what: $what,
                        unit: alloc::string::String::from(other),
                        accepted: $accepted,
                    }),
                }
            }

            #[doc = concat!("The number in ", $unit, ".")]
            #[must_use]
            pub const fn $get(self) -> f64 {
                self.0
            }

            /// For a formula that mixes dimensions.
            #[allow(dead_code, reason = "not every quantity meets another in a formula")]
            pub(crate) fn si(self) -> uom::si::f64::$si {
                uom::si::f64::$si::new::<$base>(self.0)
            }

            /// What such a formula came to.
            ///
            /// # Errors
            /// [`QuantityError::OutOfRange`](super::QuantityError::OutOfRange).
            #[allow(dead_code, reason = "not every quantity is the outcome of a formula")]
            pub(crate) fn of_si(value: uom::si::f64::$si) -> Result<Self, super::QuantityError> {
                Self::$from(value.get::<$base>())
            }
        }

        impl core::str::FromStr for $name {
            type Err = super::QuantityError;
            fn from_str(text: &str) -> Result<Self, super::QuantityError> {
                Self::parse(text)
            }
        }

        impl core::fmt::Display for $name {
            fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
                write!(f, "{} {}", self.0, $unit)
            }
        }

        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                use serde::ser::SerializeMap;
                let mut map = serializer.serialize_map(Some(1))?;
                map.serialize_entry($key, &self.0)?;
                map.end()
            }
        }
    };
}

pub(super) use scalar_type;
