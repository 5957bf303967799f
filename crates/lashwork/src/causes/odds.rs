//! How each cause stands.

use super::Cause;
use super::suspect::Case;

/// How likely each cause is to be there, and not to be.
#[derive(Clone, Copy)]
pub(super) struct Odds {
    there: [f64; 11],
    not: [f64; 11],
}

impl Odds {
    pub(super) fn of(cases: &[Case], probabilities: &[f64]) -> Self {
        // First by which are there: thousands of cases, but few such sets.
        let mut sets = alloc::vec![0.0; 1 << Cause::ALL.len()];
        for (case, probability) in cases.iter().zip(probabilities) {
            if let Some(sum) = sets.get_mut(case.causes) {
                *sum += probability;
            }
        }
        let mut odds = Self {
            there: [0.0; 11],
            not: [0.0; 11],
        };
        for (set, probability) in sets.iter().enumerate() {
            let both = odds.there.iter_mut().zip(&mut odds.not);
            for (at, (there, not)) in both.enumerate() {
                *(if set & (1 << at) == 0 { not } else { there }) += probability;
            }
        }
        odds
    }

    pub(super) fn probability(&self, at: usize) -> f64 {
        let [there, not] = [&self.there, &self.not].map(|of| of.get(at).copied().unwrap_or(0.0));
        there / (there + not)
    }

    /// How far the odds stand above others, in decibans; nothing where a cause was left out.
    pub(super) fn above(&self, before: &Self) -> [f64; 11] {
        let odds = |of: &Self, at: usize| {
            let [there, not] = [&of.there, &of.not].map(|of| of.get(at).copied().unwrap_or(0.0));
            (there, not)
        };
        core::array::from_fn(|at| {
            let ((a, not_a), (b, not_b)) = (odds(self, at), odds(before, at));
            if a > 0.0 && b > 0.0 {
                10.0 * (libm::log10(a / not_a) - libm::log10(b / not_b))
            } else {
                0.0
            }
        })
    }
}
