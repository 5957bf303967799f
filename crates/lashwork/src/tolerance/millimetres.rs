//! The lengths that are estimated: valve lash, and shims.

use super::{DecisionRule, HasLimits, InMillimetres, Measurand};
use crate::quantity::{Lash, Marked, QuantityError, ShimThickness};

/// The widest range a lash may have is the greatest uncertainty it may have.
impl Measurand for Lash {
    const UNIT: &'static str = "mm";
    const MAX_UNCERTAINTY: f64 = 40.0;

    fn number(self) -> f64 {
        self.mm()
    }

    fn from_number(mm: f64) -> Result<Self, QuantityError> {
        Self::from_mm(mm)
    }
}

impl InMillimetres for Lash {}

/// Limits of lash are kept as printed, exact in millimetres or inches.
///
/// The usual rule guards the lower side and is simple on the upper one: not below when that is 5 % or
/// less probable, below from 50 %, between cannot be said; not above up to 50 %, above beyond. Too
/// little lash burns a valve and too much ticks: common practice, no source.
///
/// ```
/// use lashwork::quantity::Lash;
/// use lashwork::tolerance::HasLimits;
/// assert_eq!(Lash::USUAL_RULE.name(), "guarded_tight");
/// ```
impl HasLimits for Lash {
    type Printed = Marked;
    const USUAL_RULE: DecisionRule = DecisionRule::of_sides("guarded_tight", 0.95, 0.5);

    fn printed_number(printed: Marked) -> f64 {
        printed.mm()
    }

    fn read_printed(text: &str) -> Result<Marked, QuantityError> {
        Marked::parse(text)
    }
}

/// Nobody measures a shim to no better than a tenth of a millimetre.
impl Measurand for ShimThickness {
    const UNIT: &'static str = "mm";
    const MAX_UNCERTAINTY: f64 = 0.1;

    fn number(self) -> f64 {
        self.mm()
    }

    fn from_number(mm: f64) -> Result<Self, QuantityError> {
        Self::from_mm(mm)
    }
}

impl InMillimetres for ShimThickness {}
