//! One spread of the ordinary valves with one share of odd ones: what the readings say of it, as they
//! are and with what a way changes in them.

use super::marginal::{Sums, part};
use super::role::Role;
use super::table::Spread;
use crate::valve::ValveKind;
use alloc::vec::Vec;
use core::ops::Range;

/// A spread with a share of odd valves.
pub(super) struct Population {
    /// The place of its spread.
    pub(super) spread: usize,
    share: f64,
    /// The logarithm of the prior of both.
    ln_prior: f64,
    /// Each reading as a valve of its kind.
    plain: Vec<Vec<f64>>,
    sums: Sums,
}

/// What a way makes of one reading.
struct Change {
    reading: usize,
    kind: ValveKind,
    terms: Vec<f64>,
}

impl Population {
    pub(super) fn of(place: usize, spread: &Spread, share: f64, ln_prior: f64) -> Self {
        let rows = spread.rows.iter();
        let plain: Vec<Vec<f64>> = rows.map(|row| row.plain(share)).collect();
        let mut sums = Sums::zero(spread.grid.nodes().count());
        for (row, terms) in spread.rows.iter().zip(&plain) {
            sums.add(row.valve.kind, terms, 1.0);
        }
        Self {
            spread: place,
            share,
            ln_prior,
            plain,
            sums,
        }
    }

    /// The readings that a way changes, at some of the nodes; `roles` has one for each reading.
    fn changes(&self, spread: &Spread, roles: &[Role], nodes: &Range<usize>) -> Vec<Change> {
        let each = spread.rows.iter().zip(&self.plain).zip(roles).enumerate();
        each.filter(|(_, (_, role))| **role != Role::ORDINARY)
            .map(|(reading, ((row, plain), role))| {
                let (kind, terms) = row.terms(*role, self.share, nodes, part(plain, nodes));
                Change {
                    reading,
                    kind,
                    terms,
                }
            })
            .collect()
    }

    fn changed(&self, spread: &Spread, changes: &[Change], nodes: &Range<usize>) -> Sums {
        let mut sums = self.sums.at(nodes);
        for change in changes {
            let row = spread.rows.get(change.reading);
            if let (Some(row), Some(plain)) = (row, self.plain.get(change.reading)) {
                sums.add(row.valve.kind, part(plain, nodes), -1.0);
                sums.add(change.kind, &change.terms, 1.0);
            }
        }
        sums
    }

    /// The logarithm of prior times marginal likelihood.
    pub(super) fn ln_marginal(&self, spread: &Spread, roles: &[Role]) -> f64 {
        let nodes = spread.grid.about(0);
        let sums = self.changed(spread, &self.changes(spread, roles, &nodes), &nodes);
        self.ln_prior + sums.ln_marginal(&spread.grid)
    }

    /// The same with all lashes shifted alike, and the mean of the shift.
    pub(super) fn ln_shifted(&self, spread: &Spread, roles: &[Role]) -> (f64, f64) {
        let nodes = 0..spread.grid.nodes().count();
        let sums = self.changed(spread, &self.changes(spread, roles, &nodes), &nodes);
        let shifts = spread.grid.shifts.iter();
        let each: Vec<(f64, f64)> = shifts
            .map(|(at, ln)| {
                let marginal = self.ln_prior + sums.ln_shifted(&spread.grid, *at);
                (ln + marginal, spread.grid.mm(*at))
            })
            .collect();
        mean_of(&each)
    }

    /// As [`Self::ln_marginal`] with a shift, and the same without each reading in turn.
    pub(super) fn without_each(
        &self,
        spread: &Spread,
        roles: &[Role],
        shift: i32,
    ) -> (f64, Vec<f64>) {
        let grid = &spread.grid;
        let nodes = grid.about(shift);
        let changes = self.changes(spread, roles, &nodes);
        let sums = self.changed(spread, &changes, &nodes);
        let [intake, exhaust] =
            [ValveKind::Intake, ValveKind::Exhaust].map(|kind| sums.ln_of_kind(kind, grid));
        let rows = spread.rows.iter().zip(&self.plain).enumerate();
        let each = rows.map(|(i, (row, plain))| {
            let change = changes.iter().find(|change| change.reading == i);
            let plain = part(plain, &nodes);
            let (kind, terms) =
                change.map_or((row.valve.kind, plain), |c| (c.kind, c.terms.as_slice()));
            // Only its own kind changes.
            let mut rest = sums.clone();
            rest.add(kind, terms, -1.0);
            let own = rest.ln_of_kind(kind, grid);
            let others = match kind {
                ValveKind::Intake => exhaust,
                ValveKind::Exhaust => intake,
            };
            self.ln_prior + own + others
        });
        (self.ln_prior + intake + exhaust, each.collect())
    }

    /// The probability that each valve is odd where those named are, and the logarithm of prior times
    /// marginal likelihood of the others.
    pub(super) fn odd(&self, spread: &Spread, named: &[usize]) -> (f64, Vec<f64>) {
        let nodes = spread.grid.about(0);
        let plain = self.plain.iter().map(|plain| part(plain, &nodes));
        let rows = || spread.rows.iter().zip(plain.clone());
        let mut others = self.sums.at(&nodes);
        for (row, terms) in named.iter().filter_map(|i| rows().nth(*i)) {
            others.add(row.valve.kind, terms, -1.0);
        }
        // Each named one is odd by chance of the share alone.
        let beside = if named.is_empty() {
            0.0
        } else {
            named.len() as f64 * libm::log(self.share)
        };
        let chances = rows().map(|(row, terms)| {
            let of_kind = others.of(row.valve.kind);
            spread.grid.mean(of_kind, row.odd(terms, self.share))
        });
        (
            self.ln_prior + beside + others.ln_marginal(&spread.grid),
            chances.collect(),
        )
    }
}

/// The logarithm of a sum, and the mean of what belongs to its terms; each a logarithm and a number.
pub(super) fn mean_of(each: &[(f64, f64)]) -> (f64, f64) {
    let all = crate::statistics::ln_sum(each.iter().map(|(ln, _)| *ln));
    let mean = each.iter().map(|(ln, x)| x * libm::exp(ln - all)).sum();
    (all, mean)
}
