//! Why a leak cannot be worked out.

use crate::Refusal;
use crate::engine::CylinderLabel;
use crate::quantity::{GaugePressure, Length, QuantityError};
use crate::tolerance::ToleranceError;
use alloc::borrow::Cow;

/// Why a leak cannot be worked out.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::condition::leak::LeakRule;
/// use lashwork::quantity::{GaugePressure, Length};
/// let refused = LeakRule::new(
///     GaugePressure::parse("80 psi")?, Length::parse("0.040 in")?, GaugePressure::parse("85 psi")?,
/// ).unwrap_err();
/// assert_eq!(refused.code(), "condition.leak-rule");
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum LeakError {
    /// No reading.
    #[error("there is no leak-down reading")]
    NoReading,
    /// Two readings of one cylinder.
    #[error("cylinder {cylinder} has two leak-down readings")]
    ReadTwice {
        /// The cylinder.
        cylinder: CylinderLabel,
    },
    /// More in the cylinder than is supplied.
    #[error("{shown} in the cylinder is over the {supply} that is supplied")]
    OverSupply {
        /// In the cylinder.
        shown: GaugePressure,
        /// Supplied.
        supply: GaugePressure,
    },
    /// The cylinder holds nothing.
    #[error(
        "{shown} of {supply} in the cylinder is nothing: a valve is open, or the air goes elsewhere"
    )]
    HoldsNothing {
        /// In the cylinder.
        shown: GaugePressure,
        /// Supplied.
        supply: GaugePressure,
    },
    /// A supply that no tester has.
    #[error("a supply of {supply} is outside {min} to {max} kPa")]
    Supply {
        /// The refused supply.
        supply: GaugePressure,
        /// Least accepted, in kilopascals.
        min: f64,
        /// Greatest accepted.
        max: f64,
    },
    /// An orifice that no tester has.
    #[error("an orifice of {} mm is outside {min} to {max} mm", .diameter.mm())]
    Orifice {
        /// The refused diameter.
        diameter: Length,
        /// Least accepted, in millimetres.
        min: f64,
        /// Greatest accepted.
        max: f64,
    },
    /// The piston is not held.
    #[error("cylinder {cylinder}: the piston is not held at top dead centre")]
    NotHeld {
        /// The cylinder.
        cylinder: CylinderLabel,
    },
    /// A rule that is none.
    #[error("a least of {least} with a supply of {supply} is no rule")]
    Rule {
        /// Least in the cylinder.
        least: GaugePressure,
        /// Supplied.
        supply: GaugePressure,
    },
    /// A rule for another supply.
    #[error("the rule is for a supply of {rule}, the tester has {tester}")]
    OtherSupply {
        /// Of the rule.
        rule: GaugePressure,
        /// Of the tester.
        tester: GaugePressure,
    },
    /// A rule for another orifice.
    #[error("the rule is for an orifice of {:.2} mm2, the tester has {tester:.2} mm2", .rule)]
    OtherOrifice {
        /// Of the rule, in square millimetres.
        rule: f64,
        /// Of the tester.
        tester: f64,
    },
    /// What two testers show, side by side.
    #[error(
        "cylinders {first} and {other} were read with two testers, so what they show cannot be compared"
    )]
    TwoTesters {
        /// A cylinder.
        first: CylinderLabel,
        /// One read with another tester.
        other: CylinderLabel,
    },
    /// Air that no engine runs in.
    #[error("{got} kPa of air is outside {min} to {max} kPa")]
    Air {
        /// The refused number.
        got: f64,
        /// Least.
        min: f64,
        /// Greatest.
        max: f64,
    },
    /// A crank too far from the top for a piston that is held there.
    #[error("{got} deg from top dead centre is outside 0 to 30 deg")]
    OffTop {
        /// The refused angle.
        got: f64,
    },
    /// Columns of unequal lengths.
    #[error("columns of {first} and of {other} rows")]
    ColumnLengths {
        /// Rows of the first.
        first: usize,
        /// Rows of the other.
        other: usize,
    },
    /// A value with one end where both are needed.
    #[error("{what} is known on one side only")]
    OneSided {
        /// What.
        what: &'static str,
    },
    /// A number that a quantity cannot be.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
    /// An uncertainty or an estimate that cannot be.
    #[error(transparent)]
    Tolerance(#[from] ToleranceError),
}

impl Refusal for LeakError {
    fn code(&self) -> &'static str {
        match self {
            Self::NoReading => "condition.leak-no-reading",
            Self::ReadTwice { .. } => "condition.leak-read-twice",
            Self::OverSupply { .. } => "condition.leak-over-supply",
            Self::HoldsNothing { .. } => "condition.leak-holds-nothing",
            Self::Supply { .. } => "condition.leak-supply",
            Self::Orifice { .. } => "condition.leak-orifice",
            Self::NotHeld { .. } => "condition.leak-not-held",
            Self::Rule { .. } => "condition.leak-rule",
            Self::OtherSupply { .. } => "condition.leak-other-supply",
            Self::OtherOrifice { .. } => "condition.leak-other-orifice",
            Self::TwoTesters { .. } => "condition.leak-two-testers",
            Self::Air { .. } => "condition.leak-air",
            Self::OffTop { .. } => "condition.leak-off-top",
            Self::ColumnLengths { .. } => "condition.leak-column-lengths",
            Self::OneSided { .. } => "condition.leak-one-sided",
            Self::Quantity(inner) => inner.code(),
            Self::Tolerance(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::NoReading => "give what the tester shows of each cylinder",
            Self::ReadTwice { .. } => "give one reading for each cylinder",
            Self::OverSupply { .. } => {
                "check which gauge is which, and that both were read at the same time"
            }
            Self::HoldsNothing { .. } => {
                "bring the piston to top dead centre of its compression stroke, not of overlap, and read again"
            }
            Self::Supply { .. } => {
                "give what the regulator shows over the air around, such as 80 psi"
            }
            Self::Orifice { .. } => {
                "give the diameter of the orifice between the gauges, or compare the tester with a hole of known size"
            }
            Self::NotHeld { .. } => {
                "hold the crank before air is let in: full pressure on a piston turns it, and a propeller with it"
            }
            Self::Rule { .. } => "give the supply, and a least pressure in the cylinder under it",
            Self::OtherSupply { .. } | Self::OtherOrifice { .. } => {
                "use the tester of the rule, or judge by the area"
            }
            Self::TwoTesters { .. } => "compare the areas: they do not depend on the tester",
            Self::Air { .. } => "give the pressure of the place, above nothing, and check its unit",
            Self::OffTop { .. } => "give how far from the top the crank may stand, such as 5 deg",
            Self::ColumnLengths { .. } => "give every column as many rows",
            Self::OneSided { .. } => "give a value with its uncertainty",
            Self::Quantity(inner) => return inner.hint(),
            Self::Tolerance(inner) => return inner.hint(),
        })
    }
}
