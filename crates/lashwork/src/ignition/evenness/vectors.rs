//! The little linear algebra of a fit with three columns.

use alloc::vec::Vec;

/// A column shorter than this part of what it was lies in the space of the others.
const DEPENDENT: f64 = 1e-9;

pub(super) fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

pub(super) fn norm(a: &[f64]) -> f64 {
    libm::sqrt(dot(a, a))
}

/// Adds so many times a column.
pub(super) fn add(to: &mut [f64], times: f64, column: &[f64]) {
    for (x, c) in to.iter_mut().zip(column) {
        *x += times * c;
    }
}

/// Orthonormal columns that span a space.
pub(super) struct Basis(Vec<Vec<f64>>);

impl Basis {
    /// Of columns, by modified Gram-Schmidt twice over; those that add nothing are left out.
    pub(super) fn of<'c>(columns: impl IntoIterator<Item = &'c [f64]>) -> Self {
        let mut basis = Self(Vec::new());
        for column in columns {
            let mut rest = basis.rest(column);
            rest = basis.rest(&rest);
            let length = norm(&rest);
            if length > DEPENDENT * norm(column) {
                for x in &mut rest {
                    *x /= length;
                }
                basis.0.push(rest);
            }
        }
        basis
    }

    /// What of a column lies outside.
    pub(super) fn rest(&self, column: &[f64]) -> Vec<f64> {
        let mut rest = column.to_vec();
        for unit in &self.0 {
            let along = dot(unit, &rest);
            add(&mut rest, -along, unit);
        }
        rest
    }
}

/// For each column the weights that take its coefficient out of readings, by least squares: what lies
/// outside the other columns, over its own length squared (Frisch and Waugh 1933).
pub(super) fn weights(columns: &[Vec<f64>]) -> Vec<Vec<f64>> {
    let of = |(place, column): (usize, &Vec<f64>)| {
        let others = columns.iter().enumerate().filter(|(at, _)| *at != place);
        let mut own = Basis::of(others.map(|(_, c)| c.as_slice())).rest(column);
        let square = dot(&own, &own);
        for x in &mut own {
            *x /= square;
        }
        own
    };
    columns.iter().enumerate().map(of).collect()
}
