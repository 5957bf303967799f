//! Measured and computed lengths, one type for each thing a length can be.
//!
//! A gap, a change of gap, a shim, a screw's travel and a part's dimension are all lengths and must
//! not be mixed by accident; where two meet, a named function says how.

use super::error::{check, within};
use super::si;
use super::{LengthUnit, Marked, Nominal, QuantityError};
use alloc::string::String;
use core::marker::PhantomData;
use core::ops::{Add, Neg, Sub};
use core::str::FromStr;
use serde::Serialize;
use serde::ser::{SerializeMap, Serializer};
use uom::si::length::{inch, millimeter};

macro_rules! length_type {
    ($(#[$doc:meta])* $name:ident, $what:literal, $min:expr, $max:expr) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
        pub struct $name(si::Length);

        impl $name {
            /// Least value in millimetres.
            pub const MIN_MM: f64 = $min;
            /// Greatest value in millimetres.
            pub const MAX_MM: f64 = $max;

            /// Whether it can be so many millimetres.
            #[allow(dead_code, reason = "not every length stands in columns")]
            #[inline]
            pub(crate) const fn can_be(mm: f64) -> bool {
                within(mm, $min, $max)
            }

            /// Takes a number of millimetres.
            ///
            /// # Errors
            /// [`QuantityError::OutOfRange`] if not finite or outside the type's range.
            pub fn from_mm(mm: f64) -> Result<Self, QuantityError> {
                let mm = check($what, "mm", mm, $min, $max)?;
                Ok(Self(si::Length::new::<millimeter>(mm)))
            }

            /// Takes an exact length.
            ///
            /// # Errors
            /// [`QuantityError::OutOfRange`] if outside the type's range.
            pub fn from_nominal(nominal: Nominal) -> Result<Self, QuantityError> {
                Self::from_mm(nominal.mm())
            }

            /// Reads text such as `0.15 mm`, `0,15 mm`, `0.006 in`, `6 thou`.
            ///
            /// # Errors
            /// [`QuantityError`]: not a number, no unit, unknown unit, out of range.
            pub fn parse(text: &str) -> Result<Self, QuantityError> {
                Self::from_nominal(Marked::parse(text)?.nominal())
            }

            /// Takes a number and its unit, rounded to the nearest nanometre.
            ///
            /// # Errors
            /// [`QuantityError::UnknownUnit`], [`QuantityError::OutOfRange`].
            pub fn from_number(value: f64, unit: &str) -> Result<Self, QuantityError> {
                Self::from_nominal(Marked::from_number(value, unit)?.nominal())
            }

            /// Millimetres.
            #[must_use]
            pub fn mm(self) -> f64 {
                self.0.get::<millimeter>()
            }

            /// Thousandths of an inch.
            #[must_use]
            pub fn thou(self) -> f64 {
                self.0.get::<inch>() * 1000.0
            }

            /// Text in a unit with so many decimals.
            #[must_use]
            pub fn show(self, unit: LengthUnit, decimals: usize) -> String {
                let value = match unit {
                    LengthUnit::Millimetre => self.mm(),
                    LengthUnit::Inch => self.0.get::<inch>(),
                    LengthUnit::Thou => self.thou(),
                    LengthUnit::Micrometre => self.mm() * 1000.0,
                };
                let text = alloc::format!("{value:.decimals$} {}", unit.symbol());
                match text.strip_prefix('-') {
                    Some(rest) if rest.chars().all(|c| !('1'..='9').contains(&c)) => String::from(rest),
                    _ => text,
                }
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
                map.serialize_entry("mm", &self.mm())?;
                map.end()
            }
        }
    };
}

length_type!(
    /// A dimension of a part: bore, stroke, rod, pulley, link; never negative.
    ///
    /// ```
    /// use lashwork::quantity::Length;
    /// assert_eq!(Length::parse("8 in")?.mm(), 203.2);
    /// assert!(Length::from_mm(-1.0).is_err());
    /// assert!(Length::from_mm(f64::NAN).is_err());
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    Length, "length", 0.0, 10_000.0
);
length_type!(
    /// How high the fuel stands in a float bowl over a mark, or how far that changes; negative under it.
    ///
    /// ```
    /// use lashwork::quantity::FuelLevel;
    /// assert_eq!(FuelLevel::parse("-0.05 in")?.mm(), -1.27);
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    FuelLevel, "fuel level", -200.0, 200.0
);
length_type!(
    /// Valve lash: the gap felt at the valve. Negative means the valve is held off its seat.
    ///
    /// ```
    /// use lashwork::quantity::{Lash, LashChange, LengthUnit};
    /// let found = Lash::parse("0.006 in")?;
    /// let wanted = Lash::parse("0.20 mm")?;
    /// assert_eq!((wanted - found).show(LengthUnit::Millimetre, 4), "0.0476 mm");
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    /// A gap is not a shim:
    /// ```compile_fail
    /// use lashwork::quantity::{Lash, ShimThickness};
    /// let shim: ShimThickness = Lash::parse("2.50 mm").unwrap();
    /// ```
    /// Two gaps do not add up to a gap:
    /// ```compile_fail
    /// use lashwork::quantity::Lash;
    /// let sum = Lash::parse("0.1 mm").unwrap() + Lash::parse("0.1 mm").unwrap();
    /// ```
    Lash, "lash", -20.0, 20.0
);
length_type!(
    /// A change of lash; positive opens the gap.
    ///
    /// ```
    /// use lashwork::quantity::{Lash, LashChange};
    /// let opened = Lash::from_mm(0.1)? + LashChange::from_mm(0.05)?;
    /// assert!((opened.mm() - 0.15).abs() < 1e-15);
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    LashChange, "change of lash", -40.0, 40.0
);
length_type!(
    /// The thickness of a shim, measured or computed.
    ///
    /// ```
    /// use lashwork::quantity::ShimThickness;
    /// assert_eq!(ShimThickness::parse("2.80 mm")?.mm(), 2.8);
    /// assert!(ShimThickness::from_mm(0.0).is_err());
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    ShimThickness, "shim thickness", 0.01, 50.0
);
length_type!(
    /// How far an adjusting screw moves along its axis; positive is into the gap.
    ///
    /// ```
    /// use lashwork::quantity::ScrewTravel;
    /// assert_eq!(ScrewTravel::from_mm(0.5)?.mm(), 0.5);
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    ScrewTravel, "screw travel", -40.0, 40.0
);

length_type!(
    /// The gap between the open contacts of a breaker.
    ///
    /// ```
    /// use lashwork::quantity::ContactGap;
    /// assert_eq!(ContactGap::parse("0.015 in")?.mm(), 0.381);
    /// assert!(ContactGap::from_mm(-0.1).is_err());
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    ContactGap, "contact gap", 0.0, 5.0
);
length_type!(
    /// The gap between the electrodes of a spark plug.
    ///
    /// ```
    /// use lashwork::quantity::PlugGap;
    /// assert_eq!(PlugGap::parse("0.025 in")?.mm(), 0.635);
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    PlugGap, "plug gap", 0.0, 10.0
);
length_type!(
    /// How far a piston is below its top dead centre, as a dial gauge in the plug hole shows it.
    ///
    /// ```
    /// use lashwork::quantity::PistonTravel;
    /// assert_eq!(PistonTravel::parse("2.5 mm")?.mm(), 2.5);
    /// assert!(PistonTravel::from_mm(-0.1).is_err());
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    PistonTravel, "piston travel from top dead centre", 0.0, 5_000.0
);
length_type!(
    /// How far the line of the piston pin misses the crank's centre, by an offset pin or an offset
    /// bore; positive toward the side the crankpin moves to after top dead centre.
    ///
    /// ```
    /// use lashwork::quantity::PinOffset;
    /// assert_eq!(PinOffset::from_mm(-1.5)?.mm(), -1.5);
    /// assert!(PinOffset::from_mm(f64::NAN).is_err());
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    PinOffset, "piston pin offset", -500.0, 500.0
);

impl LashChange {
    /// Takes what a formula that mixes dimensions came to.
    pub(crate) fn of_si(length: si::Length) -> Result<Self, QuantityError> {
        Self::from_mm(length.get::<millimeter>())
    }

    /// No change.
    pub const ZERO: Self = Self(millimetres(0.0));

    /// What arithmetic with checked values gives; like a sum, it is not held to the range again.
    pub(crate) const fn computed(mm: f64) -> Self {
        Self(millimetres(mm))
    }
}

impl Lash {
    /// No gap.
    pub const ZERO: Self = Self(millimetres(0.0));
}

impl PinOffset {
    /// No offset.
    pub const ZERO: Self = Self(millimetres(0.0));
}

impl Length {
    /// For a formula that mixes dimensions.
    pub(crate) const fn si(self) -> si::Length {
        self.0
    }

    /// What arithmetic with checked values gives; like a sum, it is not held to the range again.
    pub(crate) const fn computed(mm: f64) -> Self {
        Self(millimetres(mm))
    }
}

/// The base unit, where `new` of uom is not `const`.
const fn millimetres(value: f64) -> si::Length {
    si::Length {
        dimension: PhantomData,
        units: PhantomData,
        value,
    }
}

impl Sub for Lash {
    type Output = LashChange;
    fn sub(self, other: Self) -> LashChange {
        LashChange(self.0 - other.0)
    }
}

impl Add<LashChange> for Lash {
    type Output = Self;
    fn add(self, change: LashChange) -> Self {
        Self(self.0 + change.0)
    }
}

impl Sub<LashChange> for Lash {
    type Output = Self;
    fn sub(self, change: LashChange) -> Self {
        Self(self.0 - change.0)
    }
}

impl Neg for LashChange {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}
