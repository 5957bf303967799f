//! Why something about exhaust gas was refused.

use crate::Refusal;
use crate::quantity::{QuantityError, Quoted};
use crate::tolerance::ToleranceError;
use alloc::borrow::Cow;
use alloc::string::String;

/// Why something about exhaust gas or fuel was refused.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::mixture::gas::Fuel;
/// let refused = Fuel::named("petrol").unwrap_err();
/// assert_eq!(refused.code(), "mixture.fuel-formula");
/// assert!(refused.hint().contains("E10"));
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum GasError {
    /// Nothing that was burnt.
    #[error("0 % of carbon dioxide is not exhaust gas")]
    NoCarbonDioxide,
    /// More carbon dioxide than a fuel makes.
    #[error("{got} % of carbon dioxide is over {most} %, more than burning petrol makes")]
    TooMuchCarbonDioxide {
        /// The refused number.
        got: f64,
        /// Most.
        most: f64,
    },
    /// More carbon monoxide than an engine runs with.
    #[error("{got} % of carbon monoxide is over {most} %, richer than an engine runs")]
    TooMuchCarbonMonoxide {
        /// The refused number.
        got: f64,
        /// Most.
        most: f64,
    },
    /// More oxygen than air holds.
    #[error("{got} % of oxygen is over {most} %, which air holds")]
    TooMuchOxygen {
        /// The refused number.
        got: f64,
        /// Most.
        most: f64,
    },
    /// A hydrocarbon that no tester shows.
    #[error("a factor of {got} atoms of carbon is not from 1 to 20")]
    Factor {
        /// The refused number.
        got: f64,
    },
    /// Not a formula of C, H, O and N with carbon in it.
    #[error("{} names no fuel", Quoted(.text))]
    Formula {
        /// As it was written.
        text: String,
    },
    /// Atoms that make no fuel.
    #[error(
        "{hydrogen} of hydrogen, {oxygen} of oxygen and {nitrogen} of nitrogen for each atom of carbon make no fuel"
    )]
    Composition {
        /// Atoms of hydrogen.
        hydrogen: f64,
        /// Atoms of oxygen.
        oxygen: f64,
        /// Atoms of nitrogen.
        nitrogen: f64,
    },
    /// A share that is none.
    #[error("{got} % is not a share from 0 to 100 %")]
    EthanolShare {
        /// The refused number.
        got: f64,
    },
    /// Columns that do not belong together.
    #[error("columns of {first} and {other} rows")]
    ColumnLengths {
        /// Rows of the first.
        first: usize,
        /// Rows of another.
        other: usize,
    },
    /// A number that a quantity cannot be.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
    /// An uncertainty or an estimate that cannot be.
    #[error(transparent)]
    Tolerance(#[from] ToleranceError),
}

impl Refusal for GasError {
    fn code(&self) -> &'static str {
        match self {
            Self::NoCarbonDioxide => "mixture.no-carbon-dioxide",
            Self::TooMuchCarbonDioxide { .. } => "mixture.too-much-carbon-dioxide",
            Self::TooMuchCarbonMonoxide { .. } => "mixture.too-much-carbon-monoxide",
            Self::TooMuchOxygen { .. } => "mixture.too-much-oxygen",
            Self::Factor { .. } => "mixture.factor",
            Self::Formula { .. } => "mixture.fuel-formula",
            Self::Composition { .. } => "mixture.fuel-composition",
            Self::EthanolShare { .. } => "mixture.blend-share",
            Self::ColumnLengths { .. } => "mixture.column-lengths",
            Self::Quantity(inner) => inner.code(),
            Self::Tolerance(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::NoCarbonDioxide => {
                "start the engine, put the probe into the tail pipe and wait until the readings stand still"
            }
            Self::TooMuchCarbonDioxide { .. } => {
                "check the number, then zero and calibrate the tester"
            }
            Self::TooMuchCarbonMonoxide { .. } => "check the number and its unit",
            Self::TooMuchOxygen { .. } => "calibrate the oxygen cell in air",
            Self::Factor { .. } => {
                "give 6 for a tester that shows hexane, 3 for propane, 1 for carbon"
            }
            Self::Formula { .. } => {
                "give E0, E5, E10 or another share of ethanol, LPG, CNG, or a formula such as CH1.85 or C8H18"
            }
            Self::Composition { .. } => "give the formula of one molecule, such as C8H18",
            Self::EthanolShare { .. } => "give per cent by volume, from 0 to 100",
            Self::ColumnLengths { .. } => "give every column as many rows",
            Self::Quantity(inner) => return inner.hint(),
            Self::Tolerance(inner) => return inner.hint(),
        })
    }
}
