//! How late a spark comes against where it should.

use crate::quantity::{CrankAngle, QuantityError};
use crate::tolerance::{DecisionRule, HasLimits, Measurand};
use core::fmt;
use serde::Serialize;
use serde::ser::{SerializeMap, Serializer};

/// How late a spark comes against where it should, in crank degrees; early is negative.
///
/// ```
/// use lashwork::ignition::evenness::FiringError;
/// let late = FiringError::from_degrees_late(1.5)?;
/// assert_eq!(late.to_string(), "1.5 deg");
/// assert!(FiringError::from_degrees_late(f64::NAN).is_err());
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct FiringError(CrankAngle);

impl FiringError {
    /// Takes crank degrees, positive where the spark is late.
    ///
    /// # Errors
    /// [`QuantityError::OutOfRange`] if not finite or no angle a crank is turned by.
    pub fn from_degrees_late(degrees: f64) -> Result<Self, QuantityError> {
        CrankAngle::from_degrees(degrees).map(Self)
    }

    /// Takes an angle of the crank, positive where the spark is late.
    #[must_use]
    pub const fn late_by(angle: CrankAngle) -> Self {
        Self(angle)
    }

    /// Crank degrees, positive where the spark is late.
    #[must_use]
    pub const fn degrees_late(self) -> f64 {
        self.0.degrees()
    }

    /// The same as a turn of the crank.
    #[must_use]
    pub const fn at_crank(self) -> CrankAngle {
        self.0
    }

    /// What arithmetic with checked values gives.
    pub(super) const fn computed(degrees: f64) -> Self {
        Self(CrankAngle::computed(degrees))
    }
}

impl fmt::Display for FiringError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} deg", self.0.degrees())
    }
}

impl Serialize for FiringError {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(1))?;
        map.serialize_entry("deg_late", &self.0.degrees())?;
        map.end()
    }
}

impl Measurand for FiringError {
    const UNIT: &'static str = "deg";
    const MAX_UNCERTAINTY: f64 = 90.0;
    fn number(self) -> f64 {
        self.degrees_late()
    }
    fn from_number(number: f64) -> Result<Self, QuantityError> {
        Self::from_degrees_late(number)
    }
}

/// A band for it is symmetric and neither side does more harm: simple acceptance.
impl HasLimits for FiringError {
    type Printed = Self;
    const USUAL_RULE: DecisionRule = DecisionRule::simple();
    fn printed_number(printed: Self) -> f64 {
        printed.number()
    }
    fn read_printed(text: &str) -> Result<Self, QuantityError> {
        CrankAngle::parse(text).map(Self)
    }
}
