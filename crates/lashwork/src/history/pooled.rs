//! Lines of subjects of one kind whose slopes share a mean: in closed form, given scatter and spread.
//!
//! A reading of subject `i` in stretch `s` is `level[s] + slope[i] x`; levels are free; slopes are normal
//! about the kind's with standard deviation `spread`; the kind's slope is free. Levels and slopes are
//! integrated out one after the other, so that the work grows with the number of readings only.

use super::site::Site;
use alloc::vec::Vec;
use core::f64::consts::TAU;

/// Sums of a stretch about its weighted means.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Level {
    pub(super) weight: f64,
    pub(super) x: f64,
    pub(super) y: f64,
    pub(super) xx: f64,
    pub(super) xy: f64,
    pub(super) yy: f64,
}

impl Level {
    pub(super) fn of(sites: &[Site]) -> Self {
        let mut sums = Self::default();
        for site in sites {
            sums.weight += site.precision;
            sums.x += site.precision * site.x;
            sums.y += site.precision * site.y;
        }
        sums.x /= sums.weight;
        sums.y /= sums.weight;
        for site in sites {
            let (dx, dy) = (site.x - sums.x, site.y - sums.y);
            sums.xx += site.precision * dx * dx;
            sums.xy += site.precision * dx * dy;
            sums.yy += site.precision * dy * dy;
        }
        sums
    }

    /// Mean and variance of the line at a place.
    pub(super) fn at(&self, x: f64, slope: f64, slope_variance: f64) -> (f64, f64) {
        let dx = x - self.x;
        (
            self.y + slope * dx,
            1.0 / self.weight + dx * dx * slope_variance,
        )
    }
}

/// What the stretches of a subject say of its slope.
#[derive(Clone, Debug, Default)]
pub(super) struct Arm {
    pub(super) levels: Vec<Level>,
    pub(super) precision: f64,
    pub(super) product: f64,
    /// The logarithm of what its levels weigh.
    pub(super) ln_c: f64,
}

impl Arm {
    pub(super) fn of(stretches: &[Vec<Site>]) -> Self {
        let mut arm = Self::default();
        for sites in stretches {
            let level = Level::of(sites);
            arm.precision += level.xx;
            arm.product += level.xy;
            arm.ln_c += 0.5 * libm::log(TAU / level.weight);
            arm.ln_c += sites.iter().map(|site| site.ln_c).sum::<f64>();
            arm.levels.push(level);
        }
        arm
    }

    /// Squares left about lines of a slope.
    pub(super) fn left(&self, slope: f64) -> f64 {
        let at = |level: &Level| {
            // Never below nought, whatever the rounding.
            (level.yy - slope * (2.0 * level.xy - slope * level.xx)).max(0.0)
        };
        self.levels.iter().map(at).sum()
    }
}

/// Slopes, and how well the readings agree with scatter and spread.
#[derive(Clone, Debug)]
pub(super) struct Pooled {
    pub(super) slope: f64,
    pub(super) variance: f64,
    /// Of each subject: mean and variance.
    pub(super) slopes: Vec<(f64, f64)>,
    pub(super) ln_z: f64,
}

/// Solves for the slopes; nothing if no stretch has two places.
pub(super) fn pooled(arms: &[Arm], spread: f64) -> Option<Pooled> {
    let square = spread * spread;
    let share = |arm: &Arm| 1.0 / (1.0 + square * arm.precision);
    let (mut precision, mut product) = (0.0, 0.0);
    for arm in arms {
        precision += share(arm) * arm.precision;
        product += share(arm) * arm.product;
    }
    if precision.is_nan() || precision <= 0.0 {
        return None;
    }
    let (slope, variance) = (product / precision, 1.0 / precision);
    let mut ln_z = 0.5 * libm::log(TAU * variance);
    let mut slopes = Vec::with_capacity(arms.len());
    for arm in arms {
        let w = share(arm);
        let beyond = arm.product - arm.precision * slope;
        ln_z += arm.ln_c + 0.5 * libm::log(w);
        ln_z -= 0.5 * (arm.left(slope) - square * w * beyond * beyond).max(0.0);
        slopes.push((slope + square * w * beyond, square * w + w * w * variance));
    }
    Some(Pooled {
        slope,
        variance,
        slopes,
        ln_z,
    })
}

/// Steps at most; each halves what is left.
const STEPS: usize = 200;
/// Share of a step that is taken: all readings step at once, each as if the others stood still.
const BY: f64 = 0.6;
/// A step that small is none.
const REST: f64 = 1e-7;

/// All readings of a kind: by subject, by stretch.
pub(super) type Sites = Vec<Vec<Vec<Site>>>;

/// Lets readings with a width settle, and solves.
pub(super) fn settled(sites: &mut Sites, spread: f64) -> Option<(Vec<Arm>, Pooled)> {
    let mut arms: Vec<Arm> = sites.iter().map(|stretches| Arm::of(stretches)).collect();
    let mut found = pooled(&arms, spread)?;
    for step in 0..=STEPS {
        let mut moved = 0.0_f64;
        let is_last = step == STEPS;
        each(sites, &arms, &found, |site, mean, variance| {
            moved = moved.max(site.step(mean, variance, BY));
        });
        if moved <= 0.0 && step == 0 {
            return Some((arms, found));
        }
        for (arm, stretches) in arms.iter_mut().zip(sites.iter()) {
            *arm = Arm::of(stretches);
        }
        found = pooled(&arms, spread)?;
        if moved < REST || is_last {
            break;
        }
    }
    each(sites, &arms, &found, Site::close);
    let arms: Vec<Arm> = sites.iter().map(|stretches| Arm::of(stretches)).collect();
    let found = pooled(&arms, spread)?;
    Some((arms, found))
}

/// Every reading with mean and variance of the line where it was taken.
fn each(sites: &mut Sites, arms: &[Arm], found: &Pooled, mut f: impl FnMut(&mut Site, f64, f64)) {
    for ((stretches, arm), (slope, variance)) in sites.iter_mut().zip(arms).zip(&found.slopes) {
        for (stretch, level) in stretches.iter_mut().zip(&arm.levels) {
            for site in stretch {
                let (mean, variance) = level.at(site.x, *slope, *variance);
                f(site, mean, variance);
            }
        }
    }
}
