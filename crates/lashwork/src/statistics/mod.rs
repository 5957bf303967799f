//! Tier 0: probabilities and fits that know nothing of engines or of units.
//!
//! # Conventions
//! - A tail is computed as a tail, never as one minus the rest; each result states its error.
//! - Standard deviations are positive; all numbers of one call are in one unit.
//!
//! # Not here
//! Limits, verdicts and uncertainty budgets (`tolerance`).
//!
//! # Source
//! Named at each function.

mod belief;
mod chart;
mod error;
mod line;
mod student;
mod tail_log;
mod weibull;

pub(crate) use belief::ln_sum;
pub use belief::{entropy, expected_bits};
pub use chart::cusum;
pub use error::StatisticsError;
pub(crate) use lashwork_tails::{
    Effect, LANES, Lane, Lanes, ONE_SIDED_95, Proportion, Worked, mean,
};
pub use lashwork_tails::{RectangularNormal, normal_cdf, normal_tail};
pub use line::{Line, straight_line};
pub use student::student_t_quantile;
pub use tail_log::{ln_normal_density, ln_normal_interval, ln_normal_tail};
pub use weibull::{Lives, Weibull, weibull};
