//! Side play of the distributor shaft, by a dial gauge at the cam.

use crate::quantity::{Length, Marked, QuantityError};
use crate::tolerance::{DecisionRule, HasLimits, InMillimetres, Measurand};
use core::fmt;
use serde::Serialize;

/// How far a shaft moves sideways in its bushings from one side to the other.
///
/// ```
/// use lashwork::ignition::evenness::SidePlay;
/// use lashwork::quantity::Length;
/// use lashwork::tolerance::{Estimate, Uncertainty, Verdict};
/// # fn example() -> Result<(), Box<dyn std::error::Error>> {
/// let mm = Length::from_mm;
/// let play = SidePlay::pulled_each_way(mm(0.14)?, mm(0.12)?)?;
/// let found = Estimate::between(play, play, Uncertainty::from_mm(0.01)?)?;
/// assert_eq!(found.judged_by(&"at most 0.2 mm".parse()?).verdict, Verdict::Above);
/// # Ok(())
/// # }
/// # example().unwrap();
/// ```
///
/// # Source
/// A bench manual: the gauge at zero, a light pull each way, both readings added; named in the tests.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize)]
#[serde(transparent)]
pub struct SidePlay(Length);

impl SidePlay {
    /// From what the gauge shows pulled one way and pulled the other, both from its zero.
    ///
    /// # Errors
    /// [`QuantityError::OutOfRange`] if the sum is longer than a length can be.
    pub fn pulled_each_way(one: Length, other: Length) -> Result<Self, QuantityError> {
        Length::from_mm(one.mm() + other.mm()).map(Self)
    }

    /// The play.
    #[must_use]
    pub const fn length(self) -> Length {
        self.0
    }
}

impl fmt::Display for SidePlay {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} mm", self.0.mm())
    }
}

impl Measurand for SidePlay {
    const UNIT: &'static str = "mm";
    const MAX_UNCERTAINTY: f64 = 1.0;
    fn number(self) -> f64 {
        self.0.mm()
    }
    fn from_number(number: f64) -> Result<Self, QuantityError> {
        Length::from_mm(number).map(Self)
    }
}

impl InMillimetres for SidePlay {}

impl HasLimits for SidePlay {
    type Printed = Marked;
    const USUAL_RULE: DecisionRule = DecisionRule::simple();
    fn printed_number(printed: Marked) -> f64 {
        printed.mm()
    }
    fn read_printed(text: &str) -> Result<Marked, QuantityError> {
        Marked::parse(text)
    }
}
