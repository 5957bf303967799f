//! What it costs to give a place one of the things at hand.
//!
//! # Conventions
//! - Rows are places to fill, columns are things to fill them with.
//! - A cost is two whole numbers, of which the second decides where the first is equal. Equal sums are
//!   equal, whatever the order they were added in. Several aims in order of rank fit in one number,
//!   each in a field of bits wide enough for its sum over all rows: the sums of the fields never mix,
//!   so comparing the numbers compares the aims in their order.
//! - A pair that must not be made costs [`FORBIDDEN`].

use alloc::vec::Vec;
use core::ops::{Add, Sub};

/// What a pair costs, first things first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(in super::super) struct Cost {
    first: i128,
    second: i128,
}

impl Cost {
    pub(in super::super) const ZERO: Self = Self::new(0, 0);
    /// Less than any.
    pub(super) const LEAST: Self = Self::new(i128::MIN, 0);

    pub(in super::super) const fn new(first: i128, second: i128) -> Self {
        Self { first, second }
    }
}

impl Add for Cost {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.first + other.first, self.second + other.second)
    }
}

impl Sub for Cost {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::new(self.first - other.first, self.second - other.second)
    }
}

/// Marks a pair that must not be made.
pub(in super::super) const FORBIDDEN: Cost = Cost::new(i128::MAX, 0);
/// Stands for a forbidden pair while searching: far above every sum of allowed costs, far below
/// overflow.
pub(super) const BLOCKED: Cost = Cost::new(i128::MAX / 2, 0);
/// Between the greatest sum of allowed costs and the least with a forbidden pair.
pub(super) const BARRIER: Cost = Cost::new(i128::MAX / 4, 0);

/// A row that cannot have a column of its own: forbidden pairs leave none, there are fewer columns
/// than rows, or one of its costs is too large for the sums to be exact.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in super::super) struct Unfilled {
    /// The row.
    pub(in super::super) row: usize,
}

/// Costs of every row with every column, row by row; no more rows than columns.
#[derive(Clone, Debug)]
pub(in super::super) struct CostMatrix {
    rows: usize,
    columns: usize,
    /// With [`BLOCKED`] for what is forbidden.
    costs: Vec<Cost>,
}

impl CostMatrix {
    /// Takes costs row by row. Both numbers of each are at most the greatest number / 256 / (rows + 1)
    /// either way: below that no sum of the search can overflow.
    pub(in super::super) fn new(columns: usize, mut costs: Vec<Cost>) -> Result<Self, Unfilled> {
        let rows = costs.len().checked_div(columns).unwrap_or(0);
        if rows > columns {
            return Err(Unfilled { row: columns });
        }
        let limit = i128::try_from(rows).map_or(0, |n| i128::MAX / 256 / (n + 1));
        for (at, cost) in costs.iter_mut().enumerate() {
            if *cost == FORBIDDEN {
                *cost = BLOCKED;
            } else if [cost.first, cost.second]
                .iter()
                .any(|n| *n < -limit || *n > limit)
            {
                return Err(Unfilled { row: at / columns });
            }
        }
        Ok(Self {
            rows,
            columns,
            costs,
        })
    }

    /// Places to fill.
    pub(super) const fn rows(&self) -> usize {
        self.rows
    }

    /// Things to fill them with.
    pub(super) const fn columns(&self) -> usize {
        self.columns
    }

    /// The costs of a row, forbidden ones as [`BLOCKED`]; nothing beyond the last row.
    pub(super) fn row(&self, row: usize) -> &[Cost] {
        let from = row * self.columns;
        self.costs
            .get(from..from + self.columns)
            .unwrap_or_default()
    }
}
