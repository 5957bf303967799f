//! A chart of how a subject departs from its kind.

use super::answer::Departure;
use super::course::Reading;
use super::drift::Drift;
use crate::statistics::cusum;
use crate::tolerance::Measurand;
use alloc::vec::Vec;

/// Half of the departure that running sums are to find.
const SLACK: f64 = 0.5;

impl<Q: Measurand> Drift<Q> {
    /// How far a subject departs from the rate of its kind between services, and the running sums of that (CUSUM,
    /// slack one half): for a chart. Whether it is odd, [`Self::standings`] say. Empty for one not of the kind.
    #[must_use]
    pub fn departures(&self, subject: usize) -> Vec<Departure> {
        let Some(member) = self.member(subject) else {
            return Vec::new();
        };
        let (rate, scatter) = (self.rate().value, self.scatter());
        let spread = self.spread();
        let mut found: Vec<(f64, f64)> = Vec::new();
        for stretch in &member.whole.stretches {
            let both: Vec<&Reading> = stretch
                .readings
                .iter()
                .filter(|r| r.has_both_ends())
                .collect();
            for (a, b) in both.iter().zip(both.iter().skip(1)) {
                let time = b.at - a.at;
                let own = a.variance() + b.variance() + 2.0 * scatter * scatter;
                let sd = libm::hypot(libm::sqrt(own), time * spread);
                if sd > 0.0 {
                    found.push((b.at, (b.middle() - a.middle() - rate * time) / sd));
                }
            }
        }
        let values: Vec<f64> = found.iter().map(|(_, off)| *off).collect();
        let sums = cusum(&values, 0.0, SLACK).unwrap_or_default();
        let both = found.into_iter().zip(sums);
        both.map(|((at, off), (above, below))| Departure {
            at,
            off,
            above,
            below,
        })
        .collect()
    }
}
