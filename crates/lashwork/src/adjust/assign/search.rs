//! Which row gets which column, so that the sum of the costs is least: exact, on rectangles, with
//! forbidden pairs.
//!
//! # Method
//! Shortest augmenting paths with prices on the columns (Jonker and Volgenant 1987), on rectangles
//! with every row filled (Crouse 2016):
//! 1. each row takes its cheapest column if that is free;
//! 2. each row left over bids its column's price down by its lead over the second best and puts out
//!    the row that had it, at most twice as many bids as rows;
//! 3. each row still left over is placed by a shortest path over reduced costs.
//!
//! A column that no row has keeps price zero and prices only fall, which is what makes the result
//! exact on rectangles. Equal choices go to the lower column, so that the same matrix gives the same
//! answer everywhere.
//!
//! # Bounds
//! With costs up to `M` either way and `n` rows, prices stay within `4nM` in step 2 (a bid sets a
//! price to another one and a difference of two costs, and there are `2n` bids), and within
//! `(4n + 2)M` in step 3 (sums along two paths of at most `2n + 1` costs each); that holds for both
//! numbers of a cost, because each is added up like the other. Every number of the search is then
//! within `20nM`, under a tenth of what `i128` holds when `M` is its greatest value / 256 /
//! (n + 1); a forbidden pair counts as half the range and cannot be mistaken for an allowed
//! one.
//!
//! # Sources
//! R. Jonker, A. Volgenant, "A shortest augmenting path algorithm for dense and sparse linear
//! assignment problems", Computing 38 (1987) 325-340. D. F. Crouse, "On implementing 2D rectangular
//! assignment algorithms", IEEE Transactions on Aerospace and Electronic Systems 52 (2016)
//! 1679-1696.

use super::costs::{BARRIER, BLOCKED, Cost, CostMatrix, FORBIDDEN, Unfilled};
use alloc::vec;
use alloc::vec::Vec;

/// Gives every row a column of its own so that the sum of the costs is least: the columns, row by
/// row.
///
/// Exact: no other choice costs less. Among choices that cost the same, the same matrix always gives
/// the same one. Time grows as rows x rows x columns at worst.
///
/// # Errors
/// [`Unfilled`] if forbidden pairs leave no choice, with a row that misses out.
pub(in super::super) fn least_cost(matrix: &CostMatrix) -> Result<Vec<usize>, Unfilled> {
    let mut search = Search::new(matrix);
    let left = search.take_cheapest()?;
    let left = search.bid(left);
    let mut paths = Paths::new(matrix.columns());
    for row in left {
        search.place(row, &mut paths)?;
    }
    Ok(search.column_of.iter().map(|c| *c as usize).collect())
}

/// No row has this column, or no column this row.
const NONE: u32 = u32::MAX;

struct Search<'m> {
    matrix: &'m CostMatrix,
    /// Prices of columns, zero or less.
    prices: Vec<Cost>,
    row_of: Vec<u32>,
    column_of: Vec<u32>,
}

/// What a shortest path search needs for each column.
struct Paths {
    /// Length of the shortest path found so far; [`FORBIDDEN`] once the column is done.
    length: Vec<Cost>,
    /// The row before the column on that path.
    before: Vec<u32>,
    /// The least number while the column is open, [`FORBIDDEN`] once it is done.
    floor: Vec<Cost>,
    /// Columns done, with their lengths.
    done: Vec<(usize, Cost)>,
}

impl Paths {
    fn new(columns: usize) -> Self {
        Self {
            length: vec![FORBIDDEN; columns],
            before: vec![NONE; columns],
            floor: vec![Cost::LEAST; columns],
            done: Vec::new(),
        }
    }

    fn restart(&mut self) {
        self.length.fill(FORBIDDEN);
        self.floor.fill(Cost::LEAST);
        self.done.clear();
    }

    /// Lengthens paths by way of `row`, reached at `base`; gives the least length of an open column.
    fn relax(&mut self, row: u32, costs: &[Cost], prices: &[Cost], base: Cost) -> Cost {
        let mut least = FORBIDDEN;
        let known = self.length.iter_mut().zip(&mut self.before);
        let asked = costs.iter().zip(prices).zip(&self.floor);
        for ((length, before), ((cost, price), floor)) in known.zip(asked) {
            let through = (*cost - *price + base).max(*floor);
            let is_shorter = through < *length;
            *length = if is_shorter { through } else { *length };
            *before = if is_shorter { row } else { *before };
            least = least.min(*length);
        }
        least
    }
}

impl<'m> Search<'m> {
    fn new(matrix: &'m CostMatrix) -> Self {
        Self {
            matrix,
            prices: vec![Cost::ZERO; matrix.columns()],
            row_of: vec![NONE; matrix.columns()],
            column_of: vec![NONE; matrix.rows()],
        }
    }

    /// Step 1; gives the rows left over.
    fn take_cheapest(&mut self) -> Result<Vec<u32>, Unfilled> {
        let mut left = Vec::new();
        for (row, own) in (0_u32..).zip(&mut self.column_of) {
            let costs = self.matrix.row(row as usize);
            let least = costs.iter().copied().min().unwrap_or(BLOCKED);
            if least > BARRIER {
                return Err(Unfilled { row: row as usize });
            }
            let column = costs.iter().position(|c| *c == least).unwrap_or(0);
            match self.row_of.get_mut(column) {
                Some(holder) if *holder == NONE => {
                    *holder = row;
                    *own = number(column);
                }
                _ => left.push(row),
            }
        }
        Ok(left)
    }

    /// Step 2; gives the rows left over.
    fn bid(&mut self, mut left: Vec<u32>) -> Vec<u32> {
        let mut bids = 2 * self.matrix.rows();
        let mut later = Vec::new();
        left.reverse();
        while let Some(row) = left.pop() {
            if bids == 0 {
                later.push(row);
                continue;
            }
            bids -= 1;
            let (mut column, best, second) = two_best(self.matrix.row(row as usize), &self.prices);
            let mut holder = at(&self.row_of, column, NONE);
            if holder != NONE && second == best {
                // A free column that is as good costs nobody anything.
                let free = self.free_at(row, best);
                (column, holder) = free.map_or((column, holder), |free| (free, NONE));
            }
            let is_blocked = second > BARRIER;
            if holder != NONE && (is_blocked || second == best) {
                later.push(row);
                continue;
            }
            if holder != NONE {
                if let Some(price) = self.prices.get_mut(column) {
                    *price = *price - (second - best);
                }
                put(&mut self.column_of, holder as usize, NONE);
                left.push(holder);
            }
            put(&mut self.row_of, column, row);
            put(&mut self.column_of, row as usize, number(column));
        }
        later
    }

    /// The first free column at which `row` is as well off as at its best.
    fn free_at(&self, row: u32, best: Cost) -> Option<usize> {
        let asked = self.matrix.row(row as usize).iter().zip(&self.prices);
        let mut asked = asked.zip(&self.row_of);
        asked.position(|((cost, price), holder)| *holder == NONE && *cost - *price == best)
    }

    /// Step 3 for one row.
    fn place(&mut self, row: u32, paths: &mut Paths) -> Result<(), Unfilled> {
        paths.restart();
        let first = self.matrix.row(row as usize);
        let mut least = paths.relax(row, first, &self.prices, Cost::ZERO);
        let end = loop {
            if least > BARRIER {
                return Err(Unfilled { row: row as usize });
            }
            let column = self.nearest(&paths.length, least);
            let holder = at(&self.row_of, column, NONE);
            if holder == NONE {
                break column;
            }
            paths.done.push((column, least));
            put(&mut paths.length, column, FORBIDDEN);
            put(&mut paths.floor, column, FORBIDDEN);
            let costs = self.matrix.row(holder as usize);
            let (cost, price) = (
                at(costs, column, Cost::ZERO),
                at(&self.prices, column, Cost::ZERO),
            );
            least = paths.relax(holder, costs, &self.prices, least - (cost - price));
        };
        for (column, length) in &paths.done {
            if let Some(price) = self.prices.get_mut(*column) {
                *price = *price + (*length - least);
            }
        }
        let mut column = number(end);
        loop {
            let taker = at(&paths.before, column as usize, row);
            put(&mut self.row_of, column as usize, taker);
            let Some(own) = self.column_of.get_mut(taker as usize) else {
                break;
            };
            let given_up = core::mem::replace(own, column);
            if taker == row || given_up == NONE {
                break;
            }
            column = given_up;
        }
        Ok(())
    }

    /// The first free column at the least length, else the first column at it.
    fn nearest(&self, lengths: &[Cost], least: Cost) -> usize {
        let mut first = None;
        for (column, (length, holder)) in lengths.iter().zip(&self.row_of).enumerate() {
            if *length == least {
                if *holder == NONE {
                    return column;
                }
                first = first.or(Some(column));
            }
        }
        first.unwrap_or(0)
    }
}

/// The first column at which the row is best off, how well, and how well at the best other.
fn two_best(costs: &[Cost], prices: &[Cost]) -> (usize, Cost, Cost) {
    let least = |costs: &[Cost], prices: &[Cost]| {
        let asked = costs.iter().zip(prices).map(|(cost, price)| *cost - *price);
        asked.fold(FORBIDDEN, Cost::min)
    };
    let best = least(costs, prices);
    let mut asked = costs.iter().zip(prices);
    let column = asked
        .position(|(cost, price)| *cost - *price == best)
        .unwrap_or(0);
    let ((a, b), (x, y)) = (costs.split_at(column), prices.split_at(column));
    let rest = least(
        b.get(1..).unwrap_or_default(),
        y.get(1..).unwrap_or_default(),
    );
    (column, best, least(a, x).min(rest))
}

fn at<T: Copy>(list: &[T], index: usize, none: T) -> T {
    list.get(index).copied().unwrap_or(none)
}

fn put<T>(list: &mut [T], index: usize, value: T) {
    if let Some(place) = list.get_mut(index) {
        *place = value;
    }
}

fn number(column: usize) -> u32 {
    u32::try_from(column).unwrap_or(NONE)
}
