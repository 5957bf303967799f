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
        let (there, not) = self.both(at);
        there / (there + not)
    }

    /// The probability with odds raised by so many decibans.
    pub(super) fn raised(&self, at: usize, decibans: f64) -> f64 {
        let (there, not) = self.both(at);
        let there = there * libm::pow(10.0, decibans / 10.0);
        there / (there + not)
    }

    fn both(&self, at: usize) -> (f64, f64) {
        let of = |each: &[f64; 11]| each.get(at).copied().unwrap_or(0.0);
        (of(&self.there), of(&self.not))
    }

    /// How far the odds stand above others, in decibans; nothing where a cause was left out.
    pub(super) fn above(&self, before: &Self) -> [f64; 11] {
        core::array::from_fn(|at| {
            let ((a, not_a), (b, not_b)) = (self.both(at), before.both(at));
            if a > 0.0 && b > 0.0 {
                10.0 * (libm::log10(a / not_a) - libm::log10(b / not_b))
            } else {
                0.0
            }
        })
    }
}
