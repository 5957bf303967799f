//! Why a valve could not be judged.

use crate::adjust::AdjustError;
use crate::quantity::QuantityError;
use crate::tolerance::ToleranceError;
use alloc::string::String;

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
    /// The adjuster cannot bring the gap there.
    #[error(transparent)]
    Adjust(#[from] AdjustError),
}

impl ClearanceError {
    /// A short name that never changes, for documents and bindings to match on.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Quantity(inner) => inner.code(),
            Self::Tolerance(inner) => inner.code(),
            Self::Adjust(inner) => inner.code(),
        }
    }

    /// What to do about it.
    #[must_use]
    pub fn hint(&self) -> String {
        match self {
            Self::Quantity(inner) => inner.hint(),
            Self::Tolerance(inner) => inner.hint(),
            Self::Adjust(inner) => inner.hint(),
        }
    }
}
