//! Integrals over what moves all valves of a kind together, and over what moves all valves alike.
//!
//! The drift of a kind is normal with standard deviation `tau`; given the drift the readings are
//! independent, so the marginal likelihood of a kind is one integral over the drift. It is taken by
//! the trapezoid rule on equal steps over 8 `tau` to both sides. For an integrand that is a smooth
//! bell of width `w`, steps of `0.75 w` leave out about `exp(-2 pi^2 / 0.75^2)`, 6e-16: the bell
//! here is never narrower than all readings without wear would make it.
//! A drift of more than 8 `tau` is left out. Where readings lie so far out that it would matter,
//! logarithms of factors lie far beyond any that decide, and hold to about a hundredth only.
//!
//! A shift of all valves comes on top of the drifts. Each drift blurs it by `tau`, so the likelihood of
//! both kinds is a bell no narrower than `tau / sqrt 2` in it, and steps of 1.5 times that leave out
//! about 3e-4. Tables reach as far as drift and shift together; a shift is another window of them.
//!
//! # Source
//! Trapezoid rule on the whole line: Abramowitz and Stegun 25.4.2 with the Poisson sum.

use super::model::Model;
use crate::statistics::ln_sum;
use crate::valve::ValveKind;
use alloc::vec::Vec;
use core::f64::consts::{SQRT_2, TAU};
use core::ops::Range;

/// Half the range of the drift, in its standard deviations.
const REACH: f64 = 8.0;
/// Step in widths of the narrowest possible bell.
const STEP: f64 = 0.75;
/// Step of the shift in widths of its narrowest possible bell.
const SHIFT_STEP: f64 = 1.5;
/// Half the range of the common shift, in its standard deviations: a shift that would take hundreds
/// of kelvin is none.
const SHIFT_REACH: f64 = 2.0;
/// Most steps to one side, so that no request keeps the kernel busy.
const MOST_STEPS: f64 = 4000.0;

/// The steps of a table: a drift of `-half..=half` steps about every shift of `shifts`.
#[derive(Clone, Debug)]
pub(super) struct Grid {
    step: f64,
    half: i32,
    drift: f64,
    /// The first node, in steps.
    first: i32,
    /// The last node, in steps.
    last: i32,
    /// Shifts in steps, each with the logarithm of its prior probability.
    pub(super) shifts: Vec<(i32, f64)>,
}

impl Grid {
    /// Fine enough for so many readings, for a shift with this mean and standard deviation, if any.
    pub(super) fn of(model: &Model, readings: usize, shift: Option<(f64, f64)>) -> Self {
        let (drift, spread) = (model.drift_mm, model.least_spread());
        let ratio = drift / spread;
        let narrowest = drift / libm::sqrt(1.0 + readings as f64 * ratio * ratio);
        let step = (STEP * narrowest).max(REACH * drift / MOST_STEPS);
        let half = steps(REACH * drift / step);
        let shifts = shift.map_or_else(Vec::new, |(mean, spread)| {
            shifts(mean, spread, step, SHIFT_STEP * drift / SQRT_2)
        });
        let all = || shifts.iter().map(|(at, _)| *at).chain([0]);
        let (first, last) = (all().min().unwrap_or(0), all().max().unwrap_or(0));
        Self {
            step,
            half,
            drift,
            first: first - half,
            last: last + half,
            shifts,
        }
    }

    /// Every node.
    pub(super) fn nodes(&self) -> impl Iterator<Item = f64> + Clone + use<> {
        let step = self.step;
        (self.first..=self.last).map(move |k| f64::from(k) * step)
    }

    /// The nodes about a shift, by their places among all.
    pub(super) fn about(&self, shift: i32) -> Range<usize> {
        let place = |node: i32| usize::try_from(node - self.first).unwrap_or(0);
        place(shift - self.half)..place(shift + self.half + 1)
    }

    /// A number of steps in millimetres.
    pub(super) fn mm(&self, steps: i32) -> f64 {
        f64::from(steps) * self.step
    }

    /// The shift of the tables that is nearest to one in millimetres.
    pub(super) fn nearest(&self, mm: f64) -> i32 {
        let far = |at: &i32| (self.mm(*at) - mm).abs();
        let all = self.shifts.iter().map(|(at, _)| *at).chain([0]);
        all.min_by(|a, b| far(a).total_cmp(&far(b))).unwrap_or(0)
    }

    /// The logarithm of what each node about a shift weighs, with its terms.
    fn weighed<'t>(&'t self, table: &'t [f64]) -> impl Iterator<Item = f64> + Clone + 't {
        let per_node = 0.5 * (self.step / self.drift) * (self.step / self.drift);
        let ln_top = libm::log(self.step / self.drift) - 0.5 * libm::log(TAU);
        (-self.half..=self.half)
            .zip(table)
            .map(move |(k, term)| term + ln_top - per_node * f64::from(k) * f64::from(k))
    }

    /// The logarithm of the integral of a likelihood given by its logarithm at the nodes about a shift.
    fn ln_integral(&self, table: &[f64]) -> f64 {
        ln_sum(self.weighed(table))
    }

    /// The mean of what lies at these nodes, given the readings; `table` as for the integral.
    pub(super) fn mean(&self, table: &[f64], of: impl Iterator<Item = f64>) -> f64 {
        let all = self.ln_integral(table);
        let each = self.weighed(table).zip(of);
        each.map(|(ln, x)| libm::exp(ln - all) * x).sum()
    }
}

fn steps(count: f64) -> i32 {
    #[expect(clippy::cast_possible_truncation, reason = "clamped to a few thousand")]
    let whole = libm::ceil(count.clamp(1.0, 4.0 * MOST_STEPS)) as i32;
    whole
}

/// Shifts no farther apart than `apart`, on the steps of the tables, by the trapezoid rule.
fn shifts(mean: f64, spread: f64, step: f64, apart: f64) -> Vec<(i32, f64)> {
    let whole = |x: f64| {
        #[expect(
            clippy::cast_possible_truncation,
            reason = "a lash over a step, below a million"
        )]
        let steps = x.clamp(-1e6, 1e6) as i32;
        steps
    };
    let middle = whole(libm::rint(mean / step));
    let stride = whole(libm::floor(apart / step)).max(1);
    let half = whole(libm::rint(SHIFT_REACH * spread / step / f64::from(stride))).max(1);
    let each = (-half..=half).map(|k| {
        let z = f64::from(k * stride) * step / spread;
        let end = if k.abs() == half { 0.5 } else { 1.0 };
        (middle + k * stride, libm::log(end) - 0.5 * z * z)
    });
    let all = ln_sum(each.clone().map(|(_, ln)| ln));
    each.map(|(at, ln)| (at, ln - all)).collect()
}

/// Some nodes of a table.
pub(super) fn part<'t>(table: &'t [f64], nodes: &Range<usize>) -> &'t [f64] {
    table.get(nodes.clone()).unwrap_or_default()
}

/// Log-likelihoods of the readings of each kind, summed node by node.
#[derive(Clone, Debug)]
pub(super) struct Sums {
    intake: Vec<f64>,
    exhaust: Vec<f64>,
}

impl Sums {
    pub(super) fn zero(nodes: usize) -> Self {
        Self {
            intake: alloc::vec![0.0; nodes],
            exhaust: alloc::vec![0.0; nodes],
        }
    }

    /// Adds a reading's terms, with a sign.
    pub(super) fn add(&mut self, kind: ValveKind, terms: &[f64], sign: f64) {
        let sums = match kind {
            ValveKind::Intake => &mut self.intake,
            ValveKind::Exhaust => &mut self.exhaust,
        };
        for (sum, term) in sums.iter_mut().zip(terms) {
            *sum += sign * term;
        }
    }

    /// The same at some of the nodes.
    pub(super) fn at(&self, nodes: &Range<usize>) -> Self {
        Self {
            intake: part(&self.intake, nodes).to_vec(),
            exhaust: part(&self.exhaust, nodes).to_vec(),
        }
    }

    /// The readings of a kind.
    pub(super) fn of(&self, kind: ValveKind) -> &[f64] {
        match kind {
            ValveKind::Intake => &self.intake,
            ValveKind::Exhaust => &self.exhaust,
        }
    }

    /// The logarithm of the marginal likelihood of the readings of a kind.
    pub(super) fn ln_of_kind(&self, kind: ValveKind, grid: &Grid) -> f64 {
        grid.ln_integral(self.of(kind))
    }

    /// The logarithm of the marginal likelihood of all readings.
    pub(super) fn ln_marginal(&self, grid: &Grid) -> f64 {
        self.ln_of_kind(ValveKind::Intake, grid) + self.ln_of_kind(ValveKind::Exhaust, grid)
    }

    /// The same of sums over all nodes, about a shift.
    pub(super) fn ln_shifted(&self, grid: &Grid, shift: i32) -> f64 {
        let about = grid.about(shift);
        let of_kind = |sums: &[f64]| grid.ln_integral(part(sums, &about));
        of_kind(&self.intake) + of_kind(&self.exhaust)
    }
}
