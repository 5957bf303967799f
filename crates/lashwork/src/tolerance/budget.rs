//! An uncertainty budget by the law of propagation.

use crate::Refusal;
use crate::statistics::{StatisticsError, student_t_quantile};
use alloc::borrow::Cow;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// Slack before effective degrees of freedom are cut to a whole number: a budget of one entry must
/// keep its own.
const WHOLE: f64 = 1e-9;

/// One line of a budget: an input and how strongly the result follows it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Contribution {
    /// What the uncertainty comes from, in words.
    pub source: String,
    /// Standard uncertainty of the input, in the input's own unit.
    pub standard_uncertainty: f64,
    /// Change of the result for a unit change of the input.
    pub sensitivity: f64,
    /// Degrees of freedom of the standard uncertainty; `None` is infinitely many.
    pub degrees_of_freedom: Option<f64>,
}

impl Contribution {
    /// Share of the result's standard uncertainty, `|sensitivity| * standard uncertainty`, in the
    /// unit of the result.
    ///
    /// # Source
    /// JCGM 100:2008, 5.1.3.
    ///
    /// ```
    /// use lashwork::tolerance::Contribution;
    /// let length = Contribution {
    ///     source: "length".into(),
    ///     standard_uncertainty: 0.5,
    ///     sensitivity: -2.0,
    ///     degrees_of_freedom: None,
    /// };
    /// assert_eq!(length.share(), 1.0);
    /// ```
    #[must_use]
    pub fn share(&self) -> f64 {
        (self.sensitivity * self.standard_uncertainty).abs()
    }
}

/// Independent contributions to one result and what they come to together.
///
/// Inputs that depend on each other must be joined to one contribution before they enter.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::tolerance::{Budget, Contribution};
/// let line = |source: &str, u| Contribution {
///     source: source.into(),
///     standard_uncertainty: u,
///     sensitivity: 1.0,
///     degrees_of_freedom: None,
/// };
/// let budget = Budget::new(vec![line("leaf", 3.0), line("feel", 4.0)])?;
/// assert_eq!(budget.combined(), 5.0);
/// assert_eq!(budget.effective_degrees_of_freedom(), None);
/// assert_eq!(Budget::new(vec![]).unwrap_err().code(), "tolerance.budget-empty");
/// # Ok::<(), lashwork::tolerance::BudgetError>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Budget {
    contributions: Vec<Contribution>,
    combined: f64,
}

impl Budget {
    /// Takes the contributions and checks each.
    ///
    /// # Errors
    /// [`BudgetError::Empty`] without contributions; [`BudgetError::Uncertainty`] if one is
    /// negative or not finite; [`BudgetError::Sensitivity`] if one is not finite;
    /// [`BudgetError::DegreesOfFreedom`] if stated and below 1; [`BudgetError::TooLarge`] if the
    /// sum leaves the range of numbers.
    pub fn new(contributions: Vec<Contribution>) -> Result<Self, BudgetError> {
        if contributions.is_empty() {
            return Err(BudgetError::Empty);
        }
        let mut combined = 0.0;
        for line in &contributions {
            if !(line.standard_uncertainty >= 0.0 && line.standard_uncertainty.is_finite()) {
                return Err(BudgetError::Uncertainty {
                    of: line.source.clone(),
                    got: line.standard_uncertainty,
                });
            }
            if !line.sensitivity.is_finite() {
                return Err(BudgetError::Sensitivity {
                    of: line.source.clone(),
                    got: line.sensitivity,
                });
            }
            if let Some(dof) = line.degrees_of_freedom
                && (dof.is_nan() || dof < 1.0)
            {
                return Err(BudgetError::DegreesOfFreedom { got: dof });
            }
            combined = libm::hypot(combined, line.share());
        }
        if !combined.is_finite() {
            return Err(BudgetError::TooLarge);
        }
        Ok(Self {
            contributions,
            combined,
        })
    }

    /// The contributions as they were given.
    #[must_use]
    pub fn contributions(&self) -> &[Contribution] {
        &self.contributions
    }

    /// Combined standard uncertainty, in the unit of the result: root of the sum of the squares.
    ///
    /// # Source
    /// JCGM 100:2008, equation (11a).
    #[must_use]
    pub const fn combined(&self) -> f64 {
        self.combined
    }

    /// The standard deviation of the normal distribution that stands for the result where few readings
    /// made it: a contribution with few degrees of freedom counts as many times as Student's t is wider
    /// at 95 % than the normal distribution. [`Self::combined`] where all are infinite.
    ///
    /// # Source
    /// JCGM 100:2008, G.3.2 and G.4: limits at 95 % by Student's t; JCGM 101:2008, 6.4.9.2: what is known
    /// from few readings is distributed so.
    ///
    /// ```
    /// use lashwork::tolerance::{Budget, Contribution};
    /// let line = |dof| Contribution {
    ///     source: "slope".into(),
    ///     standard_uncertainty: 0.01,
    ///     sensitivity: 1.0,
    ///     degrees_of_freedom: dof,
    /// };
    /// // Table G.2: 12.71 for one degree of freedom, 1.960 for infinitely many.
    /// let widened = Budget::new(vec![line(Some(1.0))])?.widened();
    /// assert!((widened - 0.01 * 12.706 / 1.960).abs() < 1e-5);
    /// assert_eq!(Budget::new(vec![line(None)])?.widened(), 0.01);
    /// # Ok::<(), lashwork::tolerance::BudgetError>(())
    /// ```
    #[must_use]
    pub fn widened(&self) -> f64 {
        self.contributions.iter().fold(0.0, |sum, line| {
            libm::hypot(sum, line.share() * wider(line.degrees_of_freedom))
        })
    }

    /// Effective degrees of freedom; `None` is infinitely many.
    ///
    /// # Source
    /// Welch-Satterthwaite, JCGM 100:2008, equation (G.2b).
    ///
    /// ```
    /// use lashwork::tolerance::{Budget, Contribution};
    /// let line = |u, dof| Contribution {
    ///     source: "input".into(),
    ///     standard_uncertainty: u,
    ///     sensitivity: 1.0,
    ///     degrees_of_freedom: dof,
    /// };
    /// let budget = Budget::new(vec![line(0.57, Some(9.0)), line(0.25, None)])?;
    /// let dof = budget.effective_degrees_of_freedom().unwrap_or(f64::INFINITY);
    /// assert!((dof - 12.8).abs() < 0.05);
    /// # Ok::<(), lashwork::tolerance::BudgetError>(())
    /// ```
    #[must_use]
    pub fn effective_degrees_of_freedom(&self) -> Option<f64> {
        if self.combined <= 0.0 {
            return None;
        }
        let mut sum = 0.0;
        for line in &self.contributions {
            if let Some(dof) = line.degrees_of_freedom {
                let square = libm::pow(line.share() / self.combined, 2.0);
                sum += square * square / dof;
            }
        }
        let dof = 1.0 / sum;
        dof.is_finite().then_some(dof)
    }

    /// Factor that makes an interval of the stated confidence from [`Self::combined`]; effective
    /// degrees of freedom are cut to the whole number below, the cautious one of the two ways the
    /// source allows.
    ///
    /// # Units
    /// `confidence` is a fraction between 0 and 1.
    ///
    /// # Errors
    /// [`StatisticsError::Confidence`] if it is not strictly between 0 and 1.
    ///
    /// # Source
    /// JCGM 100:2008, G.4.1 and G.6.4.
    ///
    /// ```
    /// use lashwork::tolerance::{Budget, Contribution};
    /// let budget = Budget::new(vec![Contribution {
    ///     source: "mean of three".into(),
    ///     standard_uncertainty: 0.01,
    ///     sensitivity: 1.0,
    ///     degrees_of_freedom: Some(2.0),
    /// }])?;
    /// assert!((budget.coverage_factor(0.95)? - 4.303).abs() < 5e-4);
    /// # Ok::<(), lashwork::tolerance::BudgetError>(())
    /// ```
    pub fn coverage_factor(&self, confidence: f64) -> Result<f64, BudgetError> {
        let dof = self
            .effective_degrees_of_freedom()
            .map_or(f64::INFINITY, |dof| libm::floor(dof + WHOLE).max(1.0));
        Ok(student_t_quantile(confidence, dof)?)
    }
}

/// How many times wider Student's t is than the normal distribution, at 95 %; degrees of freedom below 1
/// are refused before.
pub(crate) fn wider(degrees_of_freedom: Option<f64>) -> f64 {
    const CONFIDENCE: f64 = 0.95;
    let at = |freedom| student_t_quantile(CONFIDENCE, freedom);
    match degrees_of_freedom.map(at) {
        Some(Ok(few)) => at(f64::INFINITY).map_or(1.0, |many| few / many),
        _ => 1.0,
    }
}

/// Why a budget could not be made or used.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum BudgetError {
    /// There is nothing in the budget.
    #[error("an uncertainty budget needs at least one contribution")]
    Empty,
    /// A standard uncertainty is negative or not finite.
    #[error("the standard uncertainty {got} of {of} is negative or not finite")]
    Uncertainty {
        /// The contribution's name.
        of: String,
        /// The refused number.
        got: f64,
    },
    /// A sensitivity is not finite.
    #[error("the sensitivity {got} to {of} is not finite")]
    Sensitivity {
        /// The contribution's name.
        of: String,
        /// The refused number.
        got: f64,
    },
    /// Degrees of freedom below one.
    #[error("{got} degrees of freedom are fewer than one")]
    DegreesOfFreedom {
        /// The refused number.
        got: f64,
    },
    /// No quantile for the confidence or the degrees of freedom.
    #[error(transparent)]
    Statistics(#[from] StatisticsError),
    /// The combined uncertainty is too large for a number.
    #[error("the combined uncertainty is not finite")]
    TooLarge,
}

impl Refusal for BudgetError {
    fn code(&self) -> &'static str {
        match self {
            Self::Empty => "tolerance.budget-empty",
            Self::Uncertainty { .. } => "tolerance.uncertainty",
            Self::Sensitivity { .. } => "tolerance.sensitivity",
            Self::DegreesOfFreedom { .. } => "tolerance.degrees-of-freedom",
            Self::Statistics(inner) => inner.code(),
            Self::TooLarge => "tolerance.budget-too-large",
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::Empty => "name what the uncertainty comes from, even if it is zero",
            Self::Uncertainty { .. } => "give a finite standard uncertainty of zero or more",
            Self::Sensitivity { .. } => "give a finite sensitivity",
            Self::DegreesOfFreedom { .. } => {
                "give at least 1, or leave it out where the uncertainty is taken as known"
            }
            Self::Statistics(inner) => return inner.hint(),
            Self::TooLarge => "check the units of uncertainties and sensitivities",
        })
    }
}
