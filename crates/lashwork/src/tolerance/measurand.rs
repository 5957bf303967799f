//! What a quantity must be able to do to be estimated and compared with limits.
//!
//! The area works on plain numbers in one base unit a quantity; these traits are where a number gets
//! its quantity back. Anything may implement them, in this crate or outside it.

use super::DecisionRule;
use crate::quantity::QuantityError;
use core::fmt;

/// A quantity that can be estimated: a number in its base unit, and back.
///
/// An estimate of one quantity is never taken for one of another.
///
/// ```
/// use lashwork::quantity::Lash;
/// use lashwork::tolerance::Measurand;
/// assert_eq!((Lash::UNIT, Lash::parse("0.006 in")?.number()), ("mm", 0.1524));
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
pub trait Measurand: Copy + fmt::Debug + PartialEq + PartialOrd {
    /// Symbol of the base unit, as in a document: `mm`, `deg`.
    const UNIT: &'static str;
    /// Greatest standard uncertainty that is accepted, in the base unit.
    const MAX_UNCERTAINTY: f64;

    /// The number in the base unit.
    fn number(self) -> f64;

    /// The quantity of a number in the base unit.
    ///
    /// # Errors
    /// [`QuantityError::OutOfRange`] if the quantity cannot be that much.
    fn from_number(number: f64) -> Result<Self, QuantityError>;
}

/// A quantity whose base unit is the millimetre.
///
/// ```
/// use lashwork::quantity::Lash;
/// use lashwork::tolerance::Uncertainty;
/// assert_eq!(Uncertainty::<Lash>::from_mm(0.003)?.mm(), 0.003);
/// # Ok::<(), lashwork::tolerance::ToleranceError>(())
/// ```
pub trait InMillimetres: Measurand {}

/// A quantity for which somebody prints limits.
///
/// # Examples
/// The angle for which the contacts of a distributor stay closed, in its own type:
/// ```
/// use lashwork::quantity::{DistributorAngle, QuantityError};
/// use lashwork::tolerance::{
///     DecisionRule, Estimate, HasLimits, Limits, Measurand, Uncertainty, Verdict,
/// };
///
/// #[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
/// struct Dwell(DistributorAngle);
/// impl Measurand for Dwell {
///     const UNIT: &'static str = "deg";
///     const MAX_UNCERTAINTY: f64 = 360.0;
///     fn number(self) -> f64 {
///         self.0.degrees()
///     }
///     fn from_number(degrees: f64) -> Result<Self, QuantityError> {
///         DistributorAngle::from_degrees(degrees).map(Self)
///     }
/// }
/// impl std::fmt::Display for Dwell {
///     fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
///         write!(f, "{} deg", self.0.degrees())
///     }
/// }
/// impl HasLimits for Dwell {
///     type Printed = Self;
///     const USUAL_RULE: DecisionRule = DecisionRule::simple();
///     fn printed_number(printed: Self) -> f64 {
///         printed.number()
///     }
///     fn read_printed(text: &str) -> Result<Self, QuantityError> {
///         DistributorAngle::parse(text).map(Self)
///     }
/// }
///
/// let limits: Limits<Dwell> = "57 deg to 63 deg".parse()?;
/// let read = Dwell::from_number(55.0)?;
/// let found = Estimate::between(read, read, Uncertainty::from_number(1.0)?)?;
/// assert_eq!(found.judged_by(&limits).verdict, Verdict::Below);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
/// A lash is not judged by limits of dwell:
/// ```compile_fail,E0308
/// # use lashwork::quantity::{DistributorAngle, Lash, QuantityError};
/// # use lashwork::tolerance::{
/// #     DecisionRule, Estimate, HasLimits, Limits, Measurand, Uncertainty, Verdict,
/// # };
/// #
/// # #[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
/// # struct Dwell(DistributorAngle);
/// # impl Measurand for Dwell {
/// #     const UNIT: &'static str = "deg";
/// #     const MAX_UNCERTAINTY: f64 = 360.0;
/// #     fn number(self) -> f64 {
/// #         self.0.degrees()
/// #     }
/// #     fn from_number(degrees: f64) -> Result<Self, QuantityError> {
/// #         DistributorAngle::from_degrees(degrees).map(Self)
/// #     }
/// # }
/// # impl std::fmt::Display for Dwell {
/// #     fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
/// #         write!(f, "{} deg", self.0.degrees())
/// #     }
/// # }
/// # impl HasLimits for Dwell {
/// #     type Printed = Self;
/// #     const USUAL_RULE: DecisionRule = DecisionRule::simple();
/// #     fn printed_number(printed: Self) -> f64 {
/// #         printed.number()
/// #     }
/// #     fn read_printed(text: &str) -> Result<Self, QuantityError> {
/// #         DistributorAngle::parse(text).map(Self)
/// #     }
/// # }
/// #
/// fn mixed(lash: Estimate<Lash>, limits: &Limits<Dwell>) {
///     lash.judged_by(limits);
/// }
/// ```
pub trait HasLimits: Measurand {
    /// What a limit is kept as, so that it shows again as it was printed; the quantity itself if that
    /// is no matter.
    type Printed: Copy + fmt::Debug + fmt::Display + PartialEq;
    /// The rule by which it is judged if no other is chosen.
    const USUAL_RULE: DecisionRule;

    /// The number of a printed limit in the base unit.
    fn printed_number(printed: Self::Printed) -> f64;

    /// Reads a limit as it is printed; the inverse of its `Display`.
    ///
    /// # Errors
    /// [`QuantityError`]: not a number, no unit, unknown unit, out of range.
    fn read_printed(text: &str) -> Result<Self::Printed, QuantityError>;
}

/// A measurand: its unit, the greatest uncertainty that is not a slip, and how a number leaves and enters.
macro_rules! measurand {
    ($($type:ty, $unit:literal, $most:expr, $get:ident, $from:ident;)+) => {$(
        impl $crate::tolerance::Measurand for $type {
            const UNIT: &'static str = $unit;
            const MAX_UNCERTAINTY: f64 = $most;
            fn number(self) -> f64 {
                self.$get()
            }
            fn from_number(number: f64) -> Result<Self, $crate::quantity::QuantityError> {
                Self::$from(number)
            }
        }
    )+};
}

/// Limits that are kept as the quantity itself.
macro_rules! limited {
    ($($type:ty, $rule:expr;)+) => {$(
        impl $crate::tolerance::HasLimits for $type {
            type Printed = Self;
            const USUAL_RULE: $crate::tolerance::DecisionRule = $rule;
            fn printed_number(printed: Self) -> f64 {
                $crate::tolerance::Measurand::number(printed)
            }
            fn read_printed(text: &str) -> Result<Self, $crate::quantity::QuantityError> {
                Self::parse(text)
            }
        }
    )+};
}

/// Limits that are kept as printed, exact in millimetres or inches.
macro_rules! limited_as_marked {
    ($($type:ty),+) => {$(
        impl $crate::tolerance::InMillimetres for $type {}

        impl $crate::tolerance::HasLimits for $type {
            type Printed = $crate::quantity::Marked;
            const USUAL_RULE: $crate::tolerance::DecisionRule =
                $crate::tolerance::DecisionRule::simple();
            fn printed_number(printed: $crate::quantity::Marked) -> f64 {
                printed.mm()
            }
            fn read_printed(text: &str) -> Result<$crate::quantity::Marked, $crate::quantity::QuantityError> {
                $crate::quantity::Marked::parse(text)
            }
        }
    )+};
}

pub(crate) use {limited, limited_as_marked, measurand};
