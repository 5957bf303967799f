//! How calls agree with what is predicted, and how likely that is.
//!
//! # Sources
//! The binomial distribution and Shannon's entropy: textbook mathematics.

use super::check::{Feel, MisreadRisk, RockerCheck, RockerState};
use crate::statistics::entropy;
use crate::valve::ValveId;

/// How the calls agree with what is predicted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Tally {
    pub(super) right: usize,
    pub(super) wrong: usize,
    pub(super) on_ramps: usize,
}

impl Tally {
    pub(super) fn of(checks: &[RockerCheck], state: impl Fn(ValveId) -> RockerState) -> Self {
        let mut tally = Self {
            right: 0,
            wrong: 0,
            on_ramps: 0,
        };
        for rocker in checks {
            match (state(rocker.valve), rocker.feel) {
                (RockerState::CannotSay, _) => tally.on_ramps += 1,
                (RockerState::Free, Feel::Free) | (RockerState::Tight, Feel::Tight) => {
                    tally.right += 1;
                }
                _ => tally.wrong += 1,
            }
        }
        tally
    }

    pub(super) fn log_likelihood(self, wrong: MisreadRisk) -> f64 {
        let p = wrong.get();
        self.wrong as f64 * libm::log(p) + self.right as f64 * libm::log1p(-p)
            - self.on_ramps as f64 * core::f64::consts::LN_2
    }

    /// The chance of so many or more wrong ones among the calls that can be wrong.
    pub(super) fn chance_of_so_many(self, wrong: MisreadRisk) -> f64 {
        let (p, n) = (wrong.get(), self.right + self.wrong);
        let mut term = libm::pow(1.0 - p, n as f64);
        let mut sum = 0.0;
        for k in 0..=n {
            if k >= self.wrong {
                sum += term;
            }
            term *= (n - k) as f64 / (k + 1) as f64 * p / (1.0 - p);
        }
        sum.min(1.0)
    }
}

/// The doubt in a call that is one thing with this chance, in bits.
pub(super) fn bits(chance: f64) -> f64 {
    entropy(&[chance, 1.0 - chance])
}
