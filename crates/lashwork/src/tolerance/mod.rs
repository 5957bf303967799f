//! tolerance

mod budget;
mod student;

pub use budget::{Budget, BudgetError, Contribution};
pub use student::student_t_quantile;
