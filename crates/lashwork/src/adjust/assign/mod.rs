//! The cheapest assignment of rows to columns, exact.

mod costs;
mod search;

pub use costs::{AssignmentError, Cost, CostMatrix};
pub use search::{Assignment, least_cost};
