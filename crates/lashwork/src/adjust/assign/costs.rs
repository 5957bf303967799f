//! What it costs to give a place one of the things at hand.
//!
//! # Conventions
//! - Rows are places to fill, columns are things to fill them with.
//! - Costs are whole numbers: equal sums are equal, whatever the order they were added in.
//! - A pair that must not be made costs [`Cost::FORBIDDEN`].
//!
//! This module uses nothing of the crate.

use crate::Refusal;
use alloc::borrow::Cow;
use alloc::vec::Vec;
use core::ops::{Add, Sub};

/// Seals [`Cost`]: the bounds of the search are worked out for these numbers alone.
mod sealed {
    /// Numbers of the search.
    pub trait Number: Sized {
        /// Nothing.
        const ZERO: Self;
        /// Least number, a floor that raises nothing.
        const LEAST: Self;
        /// Stands for a forbidden pair while searching: far above every sum of allowed costs, far
        /// below overflow.
        const BLOCKED: Self;
        /// Between the greatest sum of allowed costs and the least with a forbidden pair.
        const BARRIER: Self;
        /// Greatest size of a cost with so many rows; see the bounds in `assignment`.
        fn limit(rows: usize) -> Self;
        /// For messages.
        fn widened(self) -> i128;
    }
}
pub(super) use sealed::Number;

/// A whole number that may be a cost: `i32`, `i64` or `i128`.
///
/// Several aims in order of rank fit in one number, each in a field of bits wide enough for its sum
/// over all rows: the sums of the fields never mix, so comparing the numbers compares the aims in
/// their order.
pub trait Cost:
    Number + Copy + Ord + core::fmt::Debug + Add<Output = Self> + Sub<Output = Self>
{
    /// Marks a pair that must not be made.
    const FORBIDDEN: Self;
}

macro_rules! cost {
    ($($number:ty),*) => {$(
        impl Number for $number {
            const ZERO: Self = 0;
            const LEAST: Self = Self::MIN;
            const BLOCKED: Self = Self::MAX / 2;
            const BARRIER: Self = Self::MAX / 4;
            fn limit(rows: usize) -> Self {
                Self::try_from(rows).map_or(0, |n| Self::MAX / 256 / n.saturating_add(1))
            }
            fn widened(self) -> i128 {
                i128::from(self)
            }
        }
        impl Cost for $number {
            const FORBIDDEN: Self = Self::MAX;
        }
    )*};
}
cost!(i32, i64, i128);

/// Why places cannot be filled.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum AssignmentError {
    /// The list of costs does not fill the matrix.
    #[error("{got} costs do not make {rows} rows of {columns}")]
    Shape {
        /// Rows.
        rows: usize,
        /// Columns.
        columns: usize,
        /// Costs in the list.
        got: usize,
    },
    /// Every row needs a column of its own.
    #[error("{rows} rows cannot each have one of {columns} columns")]
    TooFewColumns {
        /// Rows.
        rows: usize,
        /// Columns.
        columns: usize,
    },
    /// A cost is so large that sums might not be exact.
    #[error("the cost {got} of row {row}, column {column} is over {limit} either way")]
    CostTooLarge {
        /// Row of the cost.
        row: usize,
        /// Its column.
        column: usize,
        /// The cost.
        got: i128,
        /// Greatest size with so many rows.
        limit: i128,
    },
    /// Forbidden pairs leave a row without a column of its own.
    #[error("row {row} cannot have a column without taking it from a row that has no other")]
    NoColumn {
        /// The row.
        row: usize,
    },
}

impl Refusal for AssignmentError {
    fn code(&self) -> &'static str {
        match self {
            Self::Shape { .. } => "adjust.cost-shape",
            Self::TooFewColumns { .. } => "adjust.too-few-columns",
            Self::CostTooLarge { .. } => "adjust.cost-too-large",
            Self::NoColumn { .. } => "adjust.no-column",
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::Shape { .. } => "give one cost for each row and column, row by row",
            Self::TooFewColumns { .. } => "add columns, or swap rows and columns",
            Self::CostTooLarge { .. } => "use a coarser unit, or a wider number",
            Self::NoColumn { .. } => "allow the row another column",
        })
    }
}

/// Costs of every row with every column, row by row; no more rows than columns.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::adjust::{Cost, CostMatrix};
/// let matrix = CostMatrix::new(1, 2, vec![7, i32::FORBIDDEN])?;
/// assert_eq!((matrix.rows(), matrix.columns()), (1, 2));
/// let large = CostMatrix::new(1, 1, vec![i32::MAX - 1]).unwrap_err();
/// assert_eq!(large.code(), "adjust.cost-too-large");
/// # Ok::<(), lashwork::adjust::AssignmentError>(())
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CostMatrix<C> {
    rows: usize,
    columns: usize,
    /// With `BLOCKED` for what is forbidden.
    costs: Vec<C>,
}

impl<C: Cost> CostMatrix<C> {
    /// Takes costs row by row; [`Cost::FORBIDDEN`] marks a pair that must not be made.
    ///
    /// # Errors
    /// [`AssignmentError::Shape`], [`AssignmentError::TooFewColumns`];
    /// [`AssignmentError::CostTooLarge`] if a cost is over the number's greatest value / 256 /
    /// (rows + 1) either way: below it no sum of the search can overflow.
    pub fn new(rows: usize, columns: usize, mut costs: Vec<C>) -> Result<Self, AssignmentError> {
        if rows.checked_mul(columns) != Some(costs.len()) {
            let got = costs.len();
            return Err(AssignmentError::Shape { rows, columns, got });
        }
        if rows > columns {
            return Err(AssignmentError::TooFewColumns { rows, columns });
        }
        let limit = C::limit(rows);
        let (least, most) = (C::ZERO - limit, limit);
        for (at, cost) in costs.iter_mut().enumerate() {
            if *cost == C::FORBIDDEN {
                *cost = C::BLOCKED;
            } else if *cost < least || *cost > most {
                return Err(AssignmentError::CostTooLarge {
                    row: at / columns,
                    column: at % columns,
                    got: cost.widened(),
                    limit: limit.widened(),
                });
            }
        }
        Ok(Self {
            rows,
            columns,
            costs,
        })
    }

    /// Places to fill.
    #[must_use]
    pub const fn rows(&self) -> usize {
        self.rows
    }

    /// Things to fill them with.
    #[must_use]
    pub const fn columns(&self) -> usize {
        self.columns
    }

    /// The costs of a row, forbidden ones as `BLOCKED`; nothing beyond the last row.
    pub(super) fn row(&self, row: usize) -> &[C] {
        let from = row * self.columns;
        self.costs
            .get(from..from + self.columns)
            .unwrap_or_default()
    }
}
