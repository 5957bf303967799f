//! Why something about jets was refused.

use crate::Refusal;
use crate::quantity::QuantityError;
use crate::tolerance::ToleranceError;
use alloc::borrow::Cow;

/// Why something about jets was refused.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::mixture::jets::JetNumbering;
/// let refused = JetNumbering::Flow.flow(-5.0).unwrap_err();
/// assert_eq!(refused.code(), "mixture.jet-number");
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum JetError {
    /// A number that no jet has.
    #[error("a jet number of {got} is not from 0.01 to 10000")]
    Number {
        /// The refused number.
        got: f64,
    },
    /// The maker's table does not reach so far.
    #[error("{got} is outside the maker's table of jets")]
    OutsideTable {
        /// The number or flow.
        got: f64,
    },
    /// Not a table of jets.
    #[error("a table of jets needs two rows or more, numbers and flows both rising")]
    Table,
    /// Not a series of jets.
    #[error("a series of jets needs a number or more, all rising")]
    Series,
    /// Steps that no book has.
    #[error("a step of {got} is not from 0 to 100")]
    Steps {
        /// The refused number.
        got: f64,
    },
    /// Steps that leave nothing of the jet.
    #[error("the book's steps leave a jet of {got:.1} between these two places")]
    StepsLeaveNoJet {
        /// What they leave.
        got: f64,
    },
    /// Jets of another circuit.
    #[error("the series is of another circuit than the jet that is fitted")]
    OtherCircuit,
    /// A needle has grooves and a taper, no flow by its number.
    #[error("a needle is no jet: its place does not follow from the air")]
    NeedleIsNoJet,
    /// Air that is too different.
    #[error("air {got:.3} times as dense is not from 0.5 to 2 times")]
    AirRatio {
        /// The refused ratio.
        got: f64,
    },
    /// A reading with one end where a value is needed.
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

impl Refusal for JetError {
    fn code(&self) -> &'static str {
        match self {
            Self::Number { .. } => "mixture.jet-number",
            Self::OutsideTable { .. } => "mixture.outside-jet-table",
            Self::Table => "mixture.jet-table",
            Self::Series => "mixture.jet-series",
            Self::Steps { .. } => "mixture.jet-step",
            Self::StepsLeaveNoJet { .. } => "mixture.steps-leave-no-jet",
            Self::OtherCircuit => "mixture.other-circuit",
            Self::NeedleIsNoJet => "mixture.needle-is-no-jet",
            Self::AirRatio { .. } => "mixture.air-ratio",
            Self::OneSided { .. } => "mixture.one-sided",
            Self::Quantity(inner) => inner.code(),
            Self::Tolerance(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::Number { .. } => "give the number on the jet",
            Self::OutsideTable { .. } => "give more rows of the maker's table",
            Self::Table | Self::Series => "give them in rising order, each once",
            Self::Steps { .. } => "give numbers of the jet for each 1000 ft and each 10 F",
            Self::StepsLeaveNoJet { .. } => {
                "check that the steps are of this family of jets, and both heights and temperatures"
            }
            Self::OtherCircuit => "give the sizes of the circuit that is asked for",
            Self::NeedleIsNoJet => {
                "settle the main jet for the air first, then try the needle a groove at a time"
            }
            Self::AirRatio { .. } => "check both densities and their units",
            Self::OneSided { .. } => "give a value with its uncertainty",
            Self::Quantity(inner) => return inner.hint(),
            Self::Tolerance(inner) => return inner.hint(),
        })
    }
}
