//! Mean, harmonic, and what is left at each lobe, every one a weighted sum of the readings.

use super::FirstHarmonic;
use super::readings::Lobes;
use super::vectors::{add, dot, norm, weights};
use crate::quantity::Cycle;
use alloc::vec::Vec;

/// From so many lobes on a harmonic leaves something over.
const FEWEST_FOR_HARMONIC: usize = 4;

/// A figure with its standard uncertainty, in crank degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Figure {
    pub(super) value: f64,
    pub(super) u: f64,
}

pub(super) struct Fit {
    pub(super) mean: Figure,
    pub(super) harmonic: Option<FirstHarmonic>,
    /// Half of what every second spark is later than the others.
    pub(super) every_other: Option<Figure>,
    /// Error of each lobe about the mean.
    pub(super) errors: Vec<Figure>,
    /// What the harmonic leaves of it.
    pub(super) residuals: Vec<Figure>,
    pub(super) freedom: usize,
}

impl Fit {
    pub(super) fn of(lobes: &Lobes, cycle: Cycle) -> Self {
        let figure = |row: &[f64]| Figure {
            value: dot(row, &lobes.late),
            u: lobes.u * norm(row),
        };
        let count = lobes.late.len();
        let even = alloc::vec![1.0 / count as f64; count];
        let seen: Vec<Vec<f64>> = wave(lobes)
            .into_iter()
            .map(|wave| lobes.shown(&wave))
            .collect();
        let columns: Vec<Vec<f64>> = core::iter::once(alloc::vec![1.0; count])
            .chain(seen)
            .collect();
        let taken = weights(&columns);
        let harmonic = match taken.as_slice() {
            [_, cos, sin] if count >= FEWEST_FOR_HARMONIC => Some((cos, sin)),
            _ => None,
        };
        let errors = errors_about_mean(lobes);
        let residuals: Vec<Vec<f64>> = match harmonic {
            None => errors.clone(),
            Some((cos, sin)) => {
                let mut rows = errors.clone();
                for (wave, taken) in wave(lobes).iter().zip([cos, sin]) {
                    let middle = dot(&even, wave);
                    for (row, at) in rows.iter_mut().zip(wave) {
                        add(row, middle - at, taken);
                    }
                }
                rows
            }
        };
        let alternates = count.is_multiple_of(2) && !lobes.is_dwell;
        let every_other = alternates.then(|| {
            let mut row = alloc::vec![0.0; count];
            for (place, error) in errors.iter().enumerate() {
                let sign = if place % 2 == 0 { 1.0 } else { -1.0 };
                add(&mut row, sign / count as f64, error);
            }
            figure(&row)
        });
        let fitted = if harmonic.is_some() { 2 } else { 0 };
        let hidden = usize::from(lobes.is_dwell && count.is_multiple_of(2));
        Self {
            mean: figure(&even),
            harmonic: harmonic
                .map(|(cos, sin)| FirstHarmonic::of([cos, sin], &lobes.late, lobes.u, cycle)),
            every_other,
            errors: errors.iter().map(|row| figure(row)).collect(),
            freedom: count - 1 - fitted - hidden,
            residuals: residuals.iter().map(|row| figure(row)).collect(),
        }
    }
}

/// One turn of the cam as cosine and sine at the lobes.
pub(super) fn wave(lobes: &Lobes) -> [Vec<f64>; 2] {
    let at = |of: fn(f64) -> f64| lobes.places.iter().map(|place| of(*place)).collect();
    [at(libm::cos), at(libm::sin)]
}

impl Lobes {
    /// What late sparks of the lobes do to the readings.
    pub(super) fn shown(&self, late: &[f64]) -> Vec<f64> {
        if !self.is_dwell {
            return late.to_vec();
        }
        let before = late.iter().cycle().skip(late.len().saturating_sub(1));
        late.iter()
            .zip(before)
            .map(|(own, last)| own + last)
            .collect()
    }
}

/// The weights that take each lobe's error about the mean out of the readings.
fn errors_about_mean(lobes: &Lobes) -> Vec<Vec<f64>> {
    let count = lobes.late.len();
    let n = count as f64;
    let back = |lobe: usize, reading: usize| (lobe + count - reading) % count;
    let sign = |steps: usize| if steps.is_multiple_of(2) { 1.0 } else { -1.0 };
    let weight = |steps: usize| {
        if !lobes.is_dwell {
            f64::from(u8::from(steps == 0)) - 1.0 / n
        } else if count.is_multiple_of(2) {
            // The inverse of 'own and last' where it has one: what alternates is lost.
            sign(steps) * (n - 1.0 - 2.0 * steps as f64) / (2.0 * n) - 0.5 / n
        } else {
            0.5 * sign(steps) - 0.5 / n
        }
    };
    let row = |lobe| {
        (0..count)
            .map(|reading| weight(back(lobe, reading)))
            .collect()
    };
    (0..count).map(row).collect()
}
