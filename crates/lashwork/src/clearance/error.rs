//! Why a valve could not be judged.

use crate::Refusal;
use crate::adjust::AdjustError;
use crate::feeler::FeelerError;
use crate::quantity::QuantityError;
use crate::thermal::ThermalError;
use crate::tolerance::ToleranceError;
use alloc::borrow::Cow;

/// Why a valve could not be judged.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ClearanceError {
    /// A result leaves the range of its quantity.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
    /// An uncertainty is out of its range.
    #[error(transparent)]
    Tolerance(#[from] ToleranceError),
    /// Temperatures or a coefficient out of their range.
    #[error(transparent)]
    Thermal(#[from] ThermalError),
    /// Leaves that cannot be laid together.
    #[error(transparent)]
    Feeler(#[from] FeelerError),
    /// The adjuster cannot bring the gap there.
    #[error(transparent)]
    Adjust(#[from] AdjustError),
}

impl Refusal for ClearanceError {
    fn code(&self) -> &'static str {
        match self {
            Self::Quantity(inner) => inner.code(),
            Self::Tolerance(inner) => inner.code(),
            Self::Thermal(inner) => inner.code(),
            Self::Feeler(inner) => inner.code(),
            Self::Adjust(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        match self {
            Self::Quantity(inner) => inner.hint(),
            Self::Tolerance(inner) => inner.hint(),
            Self::Thermal(inner) => inner.hint(),
            Self::Feeler(inner) => inner.hint(),
            Self::Adjust(inner) => inner.hint(),
        }
    }
}
