//! The cheapest assignment of rows to columns, exact. It serves the shims alone, and uses nothing of
//! the crate.

mod costs;
mod search;

pub(super) use costs::{Cost, CostMatrix, FORBIDDEN};
pub(super) use search::least_cost;
