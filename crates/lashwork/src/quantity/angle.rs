//! Angles of the crank, the cam, the distributor, a screw, and directions round the crank axis.
//!
//! They are different types because the same number means different turns: on a four-stroke engine
//! 60 degrees at the distributor are 120 degrees at the crank. Only [`Cycle`] joins them.

use super::error::check;
use super::{QuantityError, Written};
use alloc::string::String;
use core::ops::{Add, Neg, Sub};
use core::str::FromStr;
use serde::Serialize;
use serde::ser::{SerializeMap, Serializer};

const UNITS: &str = "deg";

macro_rules! angle_type {
    ($(#[$doc:meta])* $name:ident, $what:literal, $max:expr) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            /// No turning at all.
            pub const ZERO: Self = Self(0.0);
            /// Greatest size either way, in degrees.
            pub const MAX_DEGREES: f64 = $max;

            /// Takes whole degrees; what is out of range does not compile.
            #[must_use]
            pub const fn of_degrees<const DEGREES: i32>() -> Self {
                const { assert!(-$max <= DEGREES as f64 && DEGREES as f64 <= $max) };
                Self(DEGREES as f64)
            }

            /// Takes a number of degrees.
            ///
            /// # Errors
            /// [`QuantityError::OutOfRange`] if not finite or over [`Self::MAX_DEGREES`].
            pub fn from_degrees(degrees: f64) -> Result<Self, QuantityError> {
                check($what, "deg", degrees, -$max, $max).map(Self)
            }

            /// Reads text such as `12 deg`, `12.5°`.
            ///
            /// # Errors
            /// [`QuantityError`]: not a number, no unit, unknown unit, out of range.
            pub fn parse(text: &str) -> Result<Self, QuantityError> {
                let written = Written::read($what, text, UNITS)?;
                Self::from_number(written.value(), written.unit())
            }

            /// Takes a number and its unit.
            ///
            /// # Errors
            /// [`QuantityError::UnknownUnit`], [`QuantityError::OutOfRange`].
            pub fn from_number(value: f64, unit: &str) -> Result<Self, QuantityError> {
                match unit {
                    "deg" | "°" => Self::from_degrees(value),
                    other => Err(QuantityError::UnknownUnit {
                        what: $what,
                        unit: String::from(other),
                        accepted: UNITS,
                    }),
                }
            }

            /// Degrees.
            #[must_use]
            pub const fn degrees(self) -> f64 {
                self.0
            }

            /// Radians, for formulas.
            #[must_use]
            pub fn radians(self) -> f64 {
                self.0.to_radians()
            }
        }

        impl FromStr for $name {
            type Err = QuantityError;
            fn from_str(text: &str) -> Result<Self, QuantityError> {
                Self::parse(text)
            }
        }

        impl Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }

        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                let mut map = serializer.serialize_map(Some(1))?;
                map.serialize_entry("deg", &self.0)?;
                map.end()
            }
        }
    };
}

angle_type!(
    /// How far the crankshaft turns; positive is the running direction.
    ///
    /// This is an amount of turning, not a place in the cycle: [`CyclePosition`] is the place.
    ///
    /// ```
    /// use lashwork::quantity::{CrankAngle, Cycle};
    /// let turn = CrankAngle::parse("180 deg")?;
    /// assert_eq!(turn.at_cam(Cycle::FourStroke).degrees(), 90.0);
    /// assert!(CrankAngle::from_degrees(f64::NAN).is_err());
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    /// Crank and cam angles do not mix:
    /// ```compile_fail
    /// use lashwork::quantity::{CamAngle, CrankAngle};
    /// let sum = CrankAngle::ZERO + CamAngle::ZERO;
    /// ```
    /// A plain number is not an angle:
    /// ```compile_fail
    /// let turn: lashwork::quantity::CrankAngle = 180.0;
    /// ```
    CrankAngle, "crank angle", 720_000.0
);

impl CrankAngle {
    /// One turn of the crank.
    ///
    /// ```
    /// use lashwork::quantity::CrankAngle;
    /// assert_eq!(CrankAngle::TURN, CrankAngle::of_degrees::<360>());
    /// ```
    /// What is out of range does not compile:
    /// ```compile_fail
    /// use lashwork::quantity::CrankAngle;
    /// let far = CrankAngle::of_degrees::<720_001>();
    /// ```
    pub const TURN: Self = Self::of_degrees::<360>();

    /// What arithmetic with checked values gives; like a sum, it is not held to the range again.
    pub(crate) const fn computed(degrees: f64) -> Self {
        Self(degrees)
    }
}
angle_type!(
    /// How far the camshaft turns.
    ///
    /// ```
    /// use lashwork::quantity::{CamAngle, Cycle};
    /// assert_eq!(CamAngle::from_degrees(90.0)?.at_crank(Cycle::FourStroke).degrees(), 180.0);
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    CamAngle, "cam angle", 360_000.0
);
angle_type!(
    /// How far the distributor shaft turns.
    ///
    /// ```
    /// use lashwork::quantity::{Cycle, DistributorAngle};
    /// let dwell = DistributorAngle::from_degrees(60.0)?;
    /// assert_eq!(dwell.at_crank(Cycle::FourStroke).degrees(), 120.0);
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    /// A distributor angle is not a crank angle:
    /// ```compile_fail
    /// use lashwork::quantity::{CrankAngle, DistributorAngle};
    /// let turn: CrankAngle = DistributorAngle::from_degrees(60.0).unwrap();
    /// ```
    DistributorAngle, "distributor angle", 360_000.0
);
angle_type!(
    /// How far a magneto's rotor turns; its speed against the crank differs from one magneto to another.
    ///
    /// ```
    /// use lashwork::quantity::MagnetoAngle;
    /// assert_eq!(MagnetoAngle::parse("10 deg")?.degrees(), 10.0);
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    /// A magneto angle is not a crank angle:
    /// ```compile_fail
    /// use lashwork::quantity::{CrankAngle, MagnetoAngle};
    /// let turn: CrankAngle = MagnetoAngle::from_degrees(14.0).unwrap();
    /// ```
    MagnetoAngle, "magneto angle", 360_000.0
);

impl MagnetoAngle {
    /// What arithmetic with checked values gives; like a sum, it is not held to the range again.
    pub(crate) const fn computed(degrees: f64) -> Self {
        Self(degrees)
    }
}
angle_type!(
    /// How far an adjusting screw is turned; positive is clockwise seen from the screwdriver's end.
    ///
    /// ```
    /// use lashwork::quantity::ScrewAngle;
    /// assert_eq!(ScrewAngle::from_degrees(90.0)?.degrees(), 90.0);
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    ScrewAngle, "screw angle", 360_000.0
);
angle_type!(
    /// A direction round the crank axis in the engine's frame, counted in the running direction:
    /// where a cylinder bank or a crankpin points.
    ///
    /// ```
    /// use lashwork::quantity::AxisAngle;
    /// assert_eq!(AxisAngle::from_degrees(-90.0)?.within_turn(), 270.0);
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    AxisAngle, "direction round the crank axis", 3600.0
);

impl AxisAngle {
    /// What arithmetic with checked values gives; like a sum, it is not held to the range again.
    pub(crate) const fn computed(degrees: f64) -> Self {
        Self(degrees)
    }

    /// The same direction as degrees from 0 up to, not including, 360.
    #[must_use]
    pub fn within_turn(self) -> f64 {
        wrap(self.0, 360.0)
    }
}

/// How many strokes make a cycle, and with it how far the crank turns in one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Cycle {
    /// One turn of the crank.
    TwoStroke,
    /// Two turns of the crank.
    FourStroke,
}

impl Cycle {
    /// Crank degrees in one cycle: 360 or 720.
    #[must_use]
    pub const fn degrees(self) -> f64 {
        match self {
            Self::TwoStroke => 360.0,
            Self::FourStroke => 720.0,
        }
    }

    /// Crank turns for one turn of the cam or distributor: 1 or 2.
    #[must_use]
    pub const fn crank_turns(self) -> f64 {
        self.degrees() / 360.0
    }
}

impl CrankAngle {
    /// The turn of the camshaft that goes with it.
    #[must_use]
    pub const fn at_cam(self, cycle: Cycle) -> CamAngle {
        CamAngle(self.0 / cycle.crank_turns())
    }

    /// The turn of the distributor that goes with it.
    #[must_use]
    pub const fn at_distributor(self, cycle: Cycle) -> DistributorAngle {
        DistributorAngle(self.0 / cycle.crank_turns())
    }
}

impl CamAngle {
    /// The turn of the crankshaft that goes with it.
    #[must_use]
    pub const fn at_crank(self, cycle: Cycle) -> CrankAngle {
        CrankAngle(self.0 * cycle.crank_turns())
    }
}

impl DistributorAngle {
    /// The turn of the crankshaft that goes with it.
    #[must_use]
    pub const fn at_crank(self, cycle: Cycle) -> CrankAngle {
        CrankAngle(self.0 * cycle.crank_turns())
    }
}

/// A place in the working cycle: crank degrees after a firing top dead centre, from 0 up to, not
/// including, the cycle's length.
///
/// ```
/// use lashwork::quantity::{CrankAngle, Cycle, CyclePosition};
/// let late = CyclePosition::new(Cycle::FourStroke, CrankAngle::from_degrees(700.0)?);
/// let early = late.turned(CrankAngle::from_degrees(30.0)?);
/// assert_eq!(early.degrees(), 10.0);
/// assert_eq!(late.forward_to(early).degrees(), 30.0);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
/// A place is not an amount of turning:
/// ```compile_fail
/// use lashwork::quantity::{CrankAngle, Cycle, CyclePosition};
/// let turn: CrankAngle = CyclePosition::new(Cycle::FourStroke, CrankAngle::ZERO);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CyclePosition {
    cycle: Cycle,
    degrees: f64,
}

impl CyclePosition {
    /// The place reached by turning so far from firing top dead centre; whole cycles fall away.
    #[must_use]
    pub fn new(cycle: Cycle, after_firing_tdc: CrankAngle) -> Self {
        Self {
            cycle,
            degrees: wrap(after_firing_tdc.0, cycle.degrees()),
        }
    }

    /// Crank degrees after firing top dead centre.
    #[must_use]
    pub const fn degrees(self) -> f64 {
        self.degrees
    }

    /// The cycle it is a place in.
    #[must_use]
    pub const fn cycle(self) -> Cycle {
        self.cycle
    }

    /// The place after turning on.
    #[must_use]
    pub fn turned(self, by: CrankAngle) -> Self {
        Self::new(self.cycle, CrankAngle(self.degrees + by.0))
    }

    /// How far the crank turns forward from here to `target`: from 0 up to one cycle.
    #[must_use]
    pub fn forward_to(self, target: Self) -> CrankAngle {
        CrankAngle(wrap(target.degrees - self.degrees, self.cycle.degrees()))
    }
}

impl Serialize for CyclePosition {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(1))?;
        map.serialize_entry("deg", &self.degrees)?;
        map.end()
    }
}

/// Remainder in `0..period`; what lies within rounding below the period counts as 0.
fn wrap(value: f64, period: f64) -> f64 {
    /// Slack for the last bits of sums of thirds and sevenths of a turn, in degrees.
    const ROUNDING: f64 = 1e-9;
    let r = value - period * libm::floor(value / period);
    if r >= period - ROUNDING { 0.0 } else { r }
}
