//! Why signs cannot be weighed.

use crate::Refusal;
use crate::mixture::gauge::GaugeError;
use alloc::borrow::Cow;

/// Why signs cannot be weighed.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::causes::CauseCheck;
/// let refused = CauseCheck::default().weighed().unwrap_err();
/// assert_eq!(refused.code(), "causes.no-cylinders");
/// assert!(refused.hint().contains("each cylinder"));
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum CauseError {
    /// An engine without cylinders.
    #[error("no cylinders are given")]
    NoCylinders,
    /// More cylinders than can be weighed.
    #[error("{got} cylinders are more than the {most} that can be weighed")]
    TooMany {
        /// How many were given.
        got: usize,
        /// Most accepted.
        most: usize,
    },
    /// Neighbours that are not.
    #[error("cylinders {one} and {other}, counted from 0, cannot be neighbours among {cylinders}")]
    Neighbours {
        /// The one.
        one: usize,
        /// The other.
        other: usize,
        /// How many cylinders there are.
        cylinders: usize,
    },
    /// A finding that is less sure than a coin, or beyond doubt.
    #[error("a chance to be right of {got} is not from 0.5 up to, but not, 1")]
    Sure {
        /// The refused chance.
        got: f64,
    },
    /// How often a cause is met is no share.
    #[error("{got} % of engines is not from 0 up to, but not, 100 %")]
    Prior {
        /// The refused share, in percent.
        got: f64,
    },
    /// What the gauge shows.
    #[error(transparent)]
    Gauge(#[from] GaugeError),
}

impl Refusal for CauseError {
    fn code(&self) -> &'static str {
        match self {
            Self::NoCylinders => "causes.no-cylinders",
            Self::TooMany { .. } => "causes.too-many-cylinders",
            Self::Neighbours { .. } => "causes.neighbours",
            Self::Sure { .. } => "causes.sure",
            Self::Prior { .. } => "causes.prior",
            Self::Gauge(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::NoCylinders => "give an entry for each cylinder, empty where nothing was found",
            Self::TooMany { .. } => "weigh one row or bank at a time",
            Self::Neighbours { .. } => {
                "name two different cylinders under one gasket, counted from 0"
            }
            Self::Sure { .. } => {
                "give a chance such as 0.95; a finding that is no surer than a coin is left out"
            }
            Self::Prior { .. } => "give a percentage such as 5; 0 leaves a cause out",
            Self::Gauge(inner) => return inner.hint(),
        })
    }
}
