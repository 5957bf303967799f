//! Why something about a float was refused.

use crate::Refusal;
use crate::quantity::QuantityError;
use crate::tolerance::ToleranceError;
use alloc::borrow::Cow;

/// Why something about a float or the height of the fuel was refused.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::mixture::float::Nozzle;
/// use lashwork::quantity::{Density, FuelLevel, Length, Vacuum};
/// let petrol = Density::parse("0.745 kg/l")?;
/// let nozzle = Nozzle { depression: Vacuum::parse("0.02 kPa")?, lift: Length::parse("6 mm")? };
/// let refused = nozzle.mass_flow(petrol, petrol, FuelLevel::from_mm(0.0)?).unwrap_err();
/// assert_eq!(refused.code(), "mixture.no-fuel-flow");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FloatError {
    /// A depth that no float sits at.
    #[error("a float {got:.3} mm deep in its fuel is not from {min} to {max} mm")]
    Depth {
        /// The refused number.
        got: f64,
        /// Least.
        min: f64,
        /// Greatest.
        max: f64,
    },
    /// A float without a section, or an arm that is none.
    #[error("a float needs a diameter, a number of floats and a leverage from 0 to 2")]
    Body,
    /// The air does not lift the fuel.
    #[error(
        "a depression of {depression} kPa does not lift the fuel to the nozzle, which takes {needed:.4} kPa"
    )]
    NoFlow {
        /// What there is.
        depression: f64,
        /// What it takes.
        needed: f64,
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

impl Refusal for FloatError {
    fn code(&self) -> &'static str {
        match self {
            Self::Depth { .. } => "mixture.float-depth",
            Self::Body => "mixture.float-body",
            Self::NoFlow { .. } => "mixture.no-fuel-flow",
            Self::OneSided { .. } => "mixture.one-sided",
            Self::Quantity(inner) => inner.code(),
            Self::Tolerance(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::Depth { .. } => "give how deep the float is in the fuel, not its whole height",
            Self::Body => "measure the float where the fuel's surface crosses it",
            Self::NoFlow { .. } => {
                "check the depression at the nozzle, the float level and their units"
            }
            Self::OneSided { .. } => "give a value with its uncertainty",
            Self::Quantity(inner) => return inner.hint(),
            Self::Tolerance(inner) => return inner.hint(),
        })
    }
}
