//! Integrals over what moves all valves of a kind together.
//!
//! The drift of a kind is normal with standard deviation `tau`; given the drift the readings are
//! independent, so the marginal likelihood of a kind is one integral over the drift. It is taken by
//! the trapezoid rule on equal steps over 8 `tau` to both sides. For an integrand that is a smooth
//! bell of width `w`, steps of `0.75 w` leave out about `exp(-2 pi^2 / 0.75^2)`, 6e-16: the bell
//! here is never narrower than all readings without wear would make it.
//! A drift of more than 8 `tau` is left out. Where readings lie so far out that it would matter,
//! logarithms of factors lie far beyond any that decide, and hold to about a hundredth only.
//!
//! # Source
//! Trapezoid rule on the whole line: Abramowitz and Stegun 25.4.2 with the Poisson sum.

use super::likelihood::ln_sum;
use super::model::Model;
use crate::valve::ValveKind;
use alloc::vec::Vec;
use core::f64::consts::TAU;

/// Half the range of the drift, in its standard deviations.
const REACH: f64 = 8.0;
/// Step in widths of the narrowest possible bell.
const STEP: f64 = 0.75;
/// Half the range of the common thermal shift, in its standard deviations: a shift that would take
/// hundreds of kelvin is none.
const WARMTH_REACH: f64 = 2.0;
/// Most steps to one side, so that no request keeps the kernel busy.
const MOST_STEPS: f64 = 4000.0;

/// The steps of an integral: `-half..=half`, each `step` millimetres.
#[derive(Clone, Copy, Debug)]
pub(super) struct Grid {
    pub(super) step: f64,
    pub(super) half: i32,
    drift: f64,
}

impl Grid {
    /// Fine enough for so many readings.
    pub(super) fn of(model: &Model, readings: usize) -> Self {
        let (drift, spread) = (model.drift_mm, model.least_spread());
        let ratio = drift / spread;
        let narrowest = drift / libm::sqrt(1.0 + readings as f64 * ratio * ratio);
        let step = (STEP * narrowest).max(REACH * drift / MOST_STEPS);
        Self {
            step,
            half: steps(REACH * drift / step),
            drift,
        }
    }

    pub(super) fn nodes(self) -> impl Iterator<Item = f64> + Clone {
        (-self.half..=self.half).map(move |k| f64::from(k) * self.step)
    }

    /// The logarithm of the greatest normal weight of one step.
    fn ln_top(self, spread: f64) -> f64 {
        libm::log(self.step / spread) - 0.5 * libm::log(TAU)
    }

    /// The logarithm of the integral of a likelihood given by its logarithm at the nodes.
    pub(super) fn ln_integral(self, ln_likelihood: &[f64]) -> f64 {
        let per_node = 0.5 * (self.step / self.drift) * (self.step / self.drift);
        let terms = (-self.half..=self.half)
            .zip(ln_likelihood)
            .map(|(k, term)| term - per_node * f64::from(k) * f64::from(k));
        self.ln_top(self.drift) + ln_sum(terms)
    }
}

fn steps(count: f64) -> i32 {
    #[expect(clippy::cast_possible_truncation, reason = "clamped to a few thousand")]
    let whole = libm::ceil(count.clamp(1.0, 4.0 * MOST_STEPS)) as i32;
    whole
}

/// Log-likelihoods of the readings of each kind, summed node by node.
#[derive(Clone, Debug)]
pub(super) struct Sums {
    pub(super) intake: Vec<f64>,
    pub(super) exhaust: Vec<f64>,
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

    /// The logarithm of the marginal likelihood of the readings of a kind.
    pub(super) fn ln_of_kind(&self, kind: ValveKind, grid: Grid) -> f64 {
        grid.ln_integral(match kind {
            ValveKind::Intake => &self.intake,
            ValveKind::Exhaust => &self.exhaust,
        })
    }

    /// The logarithm of the marginal likelihood of all readings.
    pub(super) fn ln_marginal(&self, grid: Grid) -> f64 {
        self.ln_of_kind(ValveKind::Intake, grid) + self.ln_of_kind(ValveKind::Exhaust, grid)
    }
}

/// The marginal likelihood when all valves share a thermal shift besides the drift of their kind,
/// and the mean of that shift given the readings.
///
/// `sums` gives the log-likelihoods of both kinds for a drift; `mean` and `spread` are those of the
/// shift. The shift lies on the same steps as the drift, so both kinds are tabulated once.
pub(super) fn shared_shift(
    grid: Grid,
    mean: f64,
    spread: f64,
    sums: impl Fn(f64) -> (f64, f64),
) -> (f64, f64) {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "a lash over a step, below a million"
    )]
    let middle = libm::rint(mean / grid.step).clamp(-1e6, 1e6) as i32;
    let reach = steps(WARMTH_REACH * spread / grid.step);
    let (first, last) = (middle - reach - grid.half, middle + reach + grid.half);
    let (intake, exhaust): (Vec<f64>, Vec<f64>) = (first..=last)
        .map(|k| sums(f64::from(k) * grid.step))
        .unzip();
    let window = usize::try_from(2 * grid.half + 1).unwrap_or(1);
    let ln_prior = |k: i32| {
        let off = (f64::from(k) * grid.step - mean) / spread;
        -0.5 * off * off
    };
    let whole = ln_sum((middle - reach..=middle + reach).map(ln_prior));
    let shifts: Vec<(f64, f64)> = (middle - reach..=middle + reach)
        .zip(intake.windows(window).zip(exhaust.windows(window)))
        .map(|(k, (i, e))| {
            let shift = f64::from(k) * grid.step;
            (
                shift,
                ln_prior(k) - whole + grid.ln_integral(i) + grid.ln_integral(e),
            )
        })
        .collect();
    let all = ln_sum(shifts.iter().map(|(_, ln)| *ln));
    let found = shifts
        .iter()
        .map(|(shift, ln)| shift * libm::exp(ln - all))
        .sum();
    (all, found)
}
