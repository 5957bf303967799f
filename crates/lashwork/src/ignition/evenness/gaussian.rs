//! A normal distribution of many readings, grown by one cause at a time.
//!
//! # Source
//! Sherman and Morrison (1950) for the inverse, the matrix determinant lemma for the density.

use super::vectors::{add, dot};
use alloc::vec::Vec;
use core::f64::consts::TAU;

/// Readings with independent noise, and columns each of a normal size.
#[derive(Clone)]
pub(super) struct Gaussian {
    noise: f64,
    /// Solved columns, each with the variance of its size given all others before.
    terms: Vec<(Vec<f64>, f64)>,
    ln_determinant: f64,
    readings: usize,
}

impl Gaussian {
    /// Noise alone, of a variance above zero.
    pub(super) fn of_noise(readings: usize, variance: f64) -> Self {
        Self {
            noise: variance,
            terms: Vec::new(),
            ln_determinant: readings as f64 * libm::log(variance),
            readings,
        }
    }

    /// The inverse covariance times a column.
    fn solve(&self, column: &[f64]) -> Vec<f64> {
        let mut solved: Vec<f64> = column.iter().map(|x| x / self.noise).collect();
        for (term, size) in &self.terms {
            add(&mut solved, -size * dot(term, column), term);
        }
        solved
    }

    /// With a column whose size is normal about 0.
    #[must_use]
    pub(super) fn with(mut self, column: &[f64], variance: f64) -> Self {
        let term = self.solve(column);
        let seen = dot(&term, column);
        self.ln_determinant += libm::log1p(variance * seen);
        self.terms.push((term, 1.0 / (1.0 / variance + seen)));
        self
    }

    /// The logarithm of the density.
    pub(super) fn ln_density(&self, readings: &[f64]) -> f64 {
        let square = dot(readings, &self.solve(readings));
        -0.5 * (square + self.ln_determinant + self.readings as f64 * libm::log(TAU))
    }

    /// The mean of the size of a column with that variance about 0, over its standard deviation, given the
    /// readings.
    pub(super) fn size_over_doubt(&self, column: &[f64], variance: f64, readings: &[f64]) -> f64 {
        let term = self.solve(column);
        let left = 1.0 / (1.0 / variance + dot(&term, column));
        libm::sqrt(left) * dot(&term, readings)
    }
}
