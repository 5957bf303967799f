//! Why a fit or a quantile was refused.

use crate::Refusal;
use alloc::borrow::Cow;

/// Why a fit or a quantile was refused.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::statistics::straight_line;
/// let refused = straight_line(&[1.0, 1.0], &[1.0, 3.0], &[0.1, 0.1]).unwrap_err();
/// assert_eq!(refused.code(), "statistics.one-place");
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum StatisticsError {
    /// A confidence that is not a fraction strictly between 0 and 1.
    #[error("confidence {got} is not strictly between 0 and 1")]
    Confidence {
        /// The refused number.
        got: f64,
    },
    /// Degrees of freedom below one.
    #[error("{got} degrees of freedom are fewer than one")]
    DegreesOfFreedom {
        /// The refused number.
        got: f64,
    },
    /// Lists of different lengths, or a number that is not finite.
    #[error("the points of the line cannot be used: {problem}")]
    Points {
        /// What is wrong.
        problem: &'static str,
    },
    /// The uncertainty of a point is not above zero.
    #[error("the uncertainty {got} of point {point} is not above zero and finite")]
    PointUncertainty {
        /// Which point, from 1.
        point: usize,
        /// The refused number.
        got: f64,
    },
    /// Fewer points than a fit needs.
    #[error("{got} {} too few, {needed} are needed", if *got == 1 { "point is" } else { "points are" })]
    TooFewPoints {
        /// Points given.
        got: usize,
        /// Points needed.
        needed: usize,
    },
    /// All points have the same x.
    #[error("all points have the same x")]
    OnePlace,
}

impl Refusal for StatisticsError {
    fn code(&self) -> &'static str {
        match self {
            Self::Confidence { .. } => "statistics.confidence",
            Self::DegreesOfFreedom { .. } => "statistics.degrees-of-freedom",
            Self::Points { .. } => "statistics.points",
            Self::PointUncertainty { .. } => "statistics.point-uncertainty",
            Self::TooFewPoints { .. } => "statistics.too-few-points",
            Self::OnePlace => "statistics.one-place",
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::Confidence { .. } => "give a fraction such as 0.95, not a percentage",
            Self::DegreesOfFreedom { .. } => {
                "give at least 1, or leave it out where the uncertainty is taken as known"
            }
            Self::Points { .. } => {
                "give one finite x, one finite y and one uncertainty for each point"
            }
            Self::PointUncertainty { .. } => "give a finite uncertainty above zero",
            Self::TooFewPoints { .. } => "give more points",
            Self::OnePlace => "give points at two or more different x",
        })
    }
}
