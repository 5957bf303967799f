//! All readings under one source, summed over every spread the engine's ordinary valves may have and
//! every share of odd ones.

use super::evidence::{Evidence, Seen, Source};
use super::likelihood::Gap;
use super::marginal::Grid;
use super::model::{Model, ODD_SHARES, SEVERAL_SHARE, SPREADS};
use super::population::{Population, mean_of};
use super::reading_fault::Way;
use super::role::{Role, roles};
use super::table::{Row, Spread};
use crate::engine::CylinderIndex;
use crate::quantity::LashChange;
use crate::statistics::ln_sum;
use alloc::vec::Vec;

/// All readings compared with one source.
pub(super) struct Fit {
    /// With the spread the band says.
    pub(super) model: Model,
    spreads: Vec<Spread>,
    /// Every spread, without odd valves and with some.
    ordinary: Vec<Population>,
    /// Every spread with so many odd valves that no single cause is left.
    in_disarray: Vec<Population>,
    /// What is known of a reading whatever the spread.
    closed: Vec<(bool, bool)>,
    /// The logarithm of the marginal likelihood of 'no systematic fault'.
    pub(super) ln_nothing: f64,
}

impl Fit {
    /// The readings under the believed source, with the tables that ways need: `shift` is the mean and the
    /// standard deviation of a shift of all lashes.
    pub(super) fn believed(readings: &[Seen], source: &Source, shift: (f64, f64)) -> Self {
        Self::of(readings, source, Model::of(source), Some(shift))
    }

    /// The readings under another source, without tables for ways.
    pub(super) fn other(readings: &[Seen], source: &Source, believed: &Model) -> Self {
        Self::of(readings, source, Model::of_other(source, believed), None)
    }

    fn of(readings: &[Seen], source: &Source, model: Model, shift: Option<(f64, f64)>) -> Self {
        let spreads: Vec<Spread> = SPREADS
            .iter()
            .map(|(times, prior)| {
                let wider = model.spread_by(*times);
                let grid = Grid::of(&wider, readings.len(), shift);
                let rows = readings.iter();
                Spread {
                    ln_prior: libm::log(*prior),
                    times: *times,
                    rows: rows
                        .map(|seen| Row::of(seen, source, &wider, &grid, shift.is_some()))
                        .collect(),
                    grid,
                }
            })
            .collect();
        let closed = readings
            .iter()
            .map(|seen| (Gap::felt(&seen.felt).is_closed(), seen.in_inches()));
        let populations = |shares: &[(f64, f64)]| -> Vec<Population> {
            let each = spreads.iter().enumerate().flat_map(|(i, spread)| {
                shares.iter().map(move |(share, prior)| {
                    let ln_prior = spread.ln_prior + libm::log(*prior);
                    Population::of(i, spread, *share, ln_prior)
                })
            });
            each.collect()
        };
        let mut fit = Self {
            model,
            closed: closed.collect(),
            ordinary: populations(&ODD_SHARES),
            in_disarray: if shift.is_some() {
                populations(&[(SEVERAL_SHARE, 1.0)])
            } else {
                Vec::new()
            },
            spreads,
            ln_nothing: 0.0,
        };
        fit.ln_nothing = fit.sum(&fit.ordinary, &[]);
        fit
    }

    /// The logarithm of the marginal likelihood over populations, with what a way makes of the readings.
    fn sum(&self, populations: &[Population], roles: &[Role]) -> f64 {
        let each = self.with_spread(populations);
        let each: Vec<f64> = each.map(|(p, s)| p.ln_marginal(s, roles)).collect();
        ln_sum(each.into_iter())
    }

    fn with_spread<'f>(
        &'f self,
        populations: &'f [Population],
    ) -> impl Iterator<Item = (&'f Population, &'f Spread)> {
        let each = populations.iter();
        each.filter_map(|p| Some((p, self.spreads.get(p.spread)?)))
    }

    /// The populations a way is at work in.
    fn populations(&self, way: &Way) -> &[Population] {
        if *way == Way::Disarray {
            &self.in_disarray
        } else {
            &self.ordinary
        }
    }

    /// The logarithm of the marginal likelihood of the readings if this way holds, and the way with the
    /// shift that was found; not for another source, which has a fit of its own.
    pub(super) fn weighed(&self, evidence: &Evidence, way: &Way) -> (f64, Way) {
        let roles = roles(way, evidence);
        if way.shift().is_none() {
            return (self.sum(self.populations(way), &roles), *way);
        }
        let each = self.with_spread(&self.ordinary);
        let each: Vec<(f64, f64)> = each.map(|(p, s)| p.ln_shifted(s, &roles)).collect();
        let (ln, shift) = mean_of(&each);
        (ln, way.shifted_by(LashChange::computed(shift)))
    }

    /// How many times as wide as the band says the ordinary valves of this engine spread, on the mean.
    pub(super) fn spread_times(&self) -> f64 {
        let each = self.with_spread(&self.ordinary);
        each.map(|(p, s)| s.times * libm::exp(p.ln_marginal(s, &[]) - self.ln_nothing))
            .sum()
    }

    /// The probability that each valve is odd, if there is no systematic fault and those named are.
    pub(super) fn odd(&self, named: &[usize]) -> Vec<f64> {
        let each = self.with_spread(&self.ordinary);
        let each: Vec<(f64, Vec<f64>)> = each.map(|(p, s)| p.odd(s, named)).collect();
        let all = ln_sum(each.iter().map(|(ln, _)| *ln));
        let mut sums = alloc::vec![0.0; self.closed.len()];
        for (ln, chances) in each {
            let weight = libm::exp(ln - all);
            for (sum, chance) in sums.iter_mut().zip(chances) {
                *sum += weight * chance;
            }
        }
        sums
    }

    /// How much each reading speaks for a way against 'no systematic fault', given all other readings:
    /// natural logarithms.
    pub(super) fn support(&self, evidence: &Evidence, way: &Way) -> Vec<f64> {
        let roles = roles(way, evidence);
        let shift = way.shift().map_or(0.0, LashChange::mm);
        let with = self.given_the_rest(self.populations(way), &roles, shift);
        let without = self.predicted();
        with.iter().zip(without).map(|(a, b)| a - b).collect()
    }

    /// The logarithm of the probability of each reading given all others.
    pub(super) fn predicted(&self) -> Vec<f64> {
        self.given_the_rest(&self.ordinary, &[], 0.0)
    }

    fn given_the_rest(&self, populations: &[Population], roles: &[Role], shift: f64) -> Vec<f64> {
        let each: Vec<(f64, Vec<f64>)> = self
            .with_spread(populations)
            .map(|(p, spread)| p.without_each(spread, roles, spread.grid.nearest(shift)))
            .collect();
        let all = ln_sum(each.iter().map(|(ln, _)| *ln));
        let count = self.closed.len();
        (0..count)
            .map(|i| all - ln_sum(each.iter().filter_map(|(_, rest)| rest.get(i)).copied()))
            .collect()
    }

    /// Which cylinders have a reading.
    pub(super) fn cylinders(&self) -> Vec<CylinderIndex> {
        let rows = self.spreads.first().into_iter().flat_map(|s| &s.rows);
        let mut cylinders: Vec<CylinderIndex> = rows.map(|r| r.valve.cylinder).collect();
        cylinders.sort();
        cylinders.dedup();
        cylinders
    }

    /// The readings with both ends, of all units or of those marked in inches or not.
    pub(super) fn closed(&self, inches: Option<bool>) -> impl Iterator<Item = usize> + '_ {
        let rows = self.closed.iter().enumerate();
        rows.filter(move |(_, (closed, inch))| *closed && inches.is_none_or(|i| i == *inch))
            .map(|(i, _)| i)
    }
}
