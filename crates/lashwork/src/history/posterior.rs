//! What the readings of a kind say of its drift: weighted over all scatters and spreads that may be.
//!
//! # Method
//! - Given scatter and spread everything else is solved in closed form (`pooled`, `site`).
//! - The scatter of readings is taken as equally likely on the scale of its logarithm, where it is large
//!   against what the readings state of themselves, and on its own scale where it is small; for readings
//!   without uncertainty that gives Student's t. Integrated by the trapezoidal rule.
//! - The spread between subjects is taken as half-Cauchy with the typical rate of the kind as its middle
//!   value (A. Gelman, 2006, for few groups); integrated by the midpoint rule.

use super::course::{Course, Reading};
use super::pooled::{Arm, Level, Pooled, Sites, pooled, settled};
use super::site::Site;
use alloc::vec;
use alloc::vec::Vec;
use core::f64::consts::FRAC_PI_2;

/// Places of the scatter, and of the spread.
const SCATTERS: usize = 40;
const SPREADS: usize = 16;
/// The same where readings need steps to settle, which takes longer.
const WIDE_SCATTERS: usize = 20;
const WIDE_SPREADS: usize = 10;
/// Step of the first look for where the scatter may lie.
const COARSE: f64 = 0.5;
/// Differences of the logarithm beyond which nothing matters.
const DEPTH: f64 = 20.0;
/// The least scatter that can be told from none, as a share of what it is looked for beside.
const LEAST: f64 = 1e-6;
/// Weights below which a part is left out.
const LIGHT: f64 = 1e-9;

/// Where the time axis begins and how long a unit of it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Axis {
    pub(super) zero: f64,
    pub(super) span: f64,
}

impl Axis {
    pub(super) fn place(&self, at: f64) -> f64 {
        (at - self.zero) / self.span
    }

    /// Over all readings of some courses; nothing if they are all of one time.
    pub(super) fn of(courses: &[Course]) -> Option<Self> {
        let readings = || {
            courses
                .iter()
                .flat_map(|c| &c.stretches)
                .flat_map(|s| &s.readings)
        };
        let low = readings().map(|r| r.at).fold(f64::INFINITY, f64::min);
        let high = readings().map(|r| r.at).fold(f64::NEG_INFINITY, f64::max);
        (high > low).then_some(Self {
            zero: low + 0.5 * (high - low),
            span: high - low,
        })
    }
}

/// One pair of scatter and spread with what follows from it.
#[derive(Clone, Debug)]
pub(super) struct Part {
    pub(super) weight: f64,
    pub(super) scatter: f64,
    pub(super) spread: f64,
    pub(super) pooled: Pooled,
    /// By subject, by stretch with a level.
    pub(super) levels: Vec<Vec<Level>>,
}

/// Where scatter comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Scatter {
    /// From the readings.
    Seen,
    /// So much, besides what readings state.
    Known(f64),
}

pub(super) fn sites_of(courses: &[Course], axis: &Axis) -> Sites {
    let site = |reading: &Reading| Site::new(reading, axis.place(reading.at));
    let of = |course: &Course| {
        let usable = course.stretches.iter().filter(|s| s.has_level());
        usable
            .map(|s| s.readings.iter().map(site).collect())
            .collect()
    };
    courses.iter().map(of).collect()
}

/// Sizes that the readings themselves give.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Sizes {
    /// Root mean square of what readings state of themselves.
    pub(super) stated: f64,
    /// Scatter about levels alone, and about the subjects' own lines.
    pub(super) whole: f64,
    pub(super) own: f64,
    /// Readings more than levels and one slope.
    pub(super) spare: usize,
    /// Typical rate, of the axis.
    pub(super) rate: f64,
    pub(super) least: f64,
}

impl Sizes {
    pub(super) fn of(courses: &[Course], axis: &Axis) -> Self {
        let both = || {
            let readings = courses
                .iter()
                .flat_map(|c| &c.stretches)
                .flat_map(|s| &s.readings);
            readings.filter(|r| r.has_both_ends())
        };
        let count = both().count().max(1) as f64;
        let stated = libm::sqrt(both().map(Reading::variance).sum::<f64>() / count);
        let scale = both().map(|r| r.middle().abs()).fold(0.0, f64::max);
        let mut sites = sites_of(courses, axis);
        // All alike, so that sums are plain sums of squares.
        for site in sites.iter_mut().flatten().flatten() {
            site.plain();
        }
        let arms: Vec<Arm> = sites.iter().map(|stretches| Arm::of(stretches)).collect();
        let (readings, lines) = courses
            .iter()
            .map(Course::counts)
            .fold((0, 0), |(a, b), (c, d)| (a + c, b + d));
        let (mut whole, mut own, mut slopes, mut precision) = (0.0, 0.0, 0_usize, 0.0);
        let mut rate = 0.0;
        for arm in &arms {
            whole += arm.levels.iter().map(|level| level.yy).sum::<f64>();
            if arm.precision > 0.0 {
                let slope = arm.product / arm.precision;
                own += arm.left(slope);
                rate += arm.product * slope;
                precision += arm.precision;
                slopes += 1;
            }
        }
        let over = |sum: f64, spare: usize| libm::sqrt(sum / spare.max(1) as f64);
        let spare = readings.saturating_sub(lines);
        let whole = over(whole, spare);
        Self {
            stated,
            whole,
            own: over(own, spare.saturating_sub(slopes)),
            spare: spare.saturating_sub(1),
            rate: if precision > 0.0 {
                libm::sqrt(rate / precision)
            } else {
                0.0
            },
            least: 1e-9 * whole.max(1e-3 * scale).max(f64::MIN_POSITIVE / 1e-9),
        }
    }

    /// What a scatter is small or large against.
    pub(super) fn unit(&self) -> f64 {
        let seen = 1e-3 * self.own;
        self.stated
            .max(seen)
            .max(LEAST * self.whole)
            .max(self.least)
    }

    /// The scatter at a place on the scale on which all places weigh alike.
    fn scatter(&self, t: f64) -> f64 {
        self.unit() * libm::sinh(t)
    }
}

/// Spreads that stand for all that may be, with the weight of each: half-Cauchy with the typical rate in its
/// middle, closer together where they are small, because there they matter.
pub(super) fn spreads(subjects: usize, rate: f64, count: usize) -> Vec<(f64, f64)> {
    if subjects < 2 || rate <= 0.0 {
        return vec![(0.0, 1.0)];
    }
    let root = |at: usize| (at as f64 + 0.5) / count as f64;
    (0..count)
        .map(root)
        .map(|root| (rate * libm::tan(FRAC_PI_2 * root * root), root))
        .collect()
}

/// The first and the last place that is not deeper under the top.
fn between(looked: &[(f64, f64)], depth: f64) -> (f64, f64) {
    let tops = looked.iter().map(|(_, z)| *z);
    let top = tops.fold(f64::NEG_INFINITY, f64::max);
    let inside = || {
        let inside = looked.iter().filter(|(_, z)| *z >= top - depth);
        inside.map(|(at, _)| *at)
    };
    (
        inside().fold(f64::INFINITY, f64::min),
        inside().fold(f64::NEG_INFINITY, f64::max),
    )
}

/// From where to where the scatter may lie, on the scale on which it is looked for; readings count as by
/// their moments.
pub(super) fn reach(sites: &mut Sites, sizes: &Sizes, spreads: &[(f64, f64)]) -> (f64, f64) {
    let end = libm::asinh(1e7 * (sizes.whole.max(sizes.stated) / sizes.unit())) + 1.0;
    let (mut looked, mut t) = (Vec::new(), 0.0);
    while t < end {
        for site in sites.iter_mut().flatten().flatten() {
            site.as_moments(sizes.scatter(t), sizes.least);
        }
        let arms: Vec<Arm> = sites.iter().map(|stretches| Arm::of(stretches)).collect();
        let ln_z =
            |(spread, _): &(f64, f64)| pooled(&arms, *spread).map_or(f64::NEG_INFINITY, |p| p.ln_z);
        looked.push((
            t,
            spreads.iter().map(ln_z).fold(f64::NEG_INFINITY, f64::max),
        ));
        t += COARSE;
    }
    let (low, high) = between(&looked, DEPTH);
    ((low - COARSE).max(0.0), high + COARSE)
}

/// The scatters to weigh with the weight of each.
pub(super) fn scatters((low, high): (f64, f64), sizes: &Sizes, count: usize) -> Vec<(f64, f64)> {
    let step = (high - low) / (count - 1) as f64;
    let weight = |place: usize| if place == 0 { 0.5 } else { 1.0 };
    (0..count)
        .map(|place| (sizes.scatter(low + step * place as f64), weight(place)))
        .collect()
}

/// Why there are no parts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum NoParts {
    /// No stretch was read at two times.
    NoSlope,
    /// Too few readings to see the scatter, and none is stated.
    NoScatter,
}

/// All parts that matter.
pub(super) fn parts(
    courses: &[Course],
    axis: &Axis,
    sizes: &Sizes,
    scatter: Scatter,
) -> Result<Vec<Part>, NoParts> {
    let mut sites = sites_of(courses, axis);
    let is_wide = courses
        .iter()
        .flat_map(|c| &c.stretches)
        .flat_map(|s| &s.readings)
        .any(|reading| reading.high - reading.low > 0.0);
    let (count, spread_count) = if is_wide {
        (WIDE_SCATTERS, WIDE_SPREADS)
    } else {
        (SCATTERS, SPREADS)
    };
    let spreads = spreads(courses.len(), sizes.rate, spread_count);
    let scatters = match scatter {
        Scatter::Known(known) => vec![(known, 1.0)],
        Scatter::Seen if sizes.spare > 0 => {
            scatters(reach(&mut sites, sizes, &spreads), sizes, count)
        }
        Scatter::Seen if sizes.stated > 0.0 => vec![(0.0, 1.0)],
        Scatter::Seen => return Err(NoParts::NoScatter),
    };
    let mut parts = Vec::new();
    for (scatter, share) in scatters {
        for site in sites.iter_mut().flatten().flatten() {
            site.begin(scatter, sizes.least);
        }
        for (spread, weight) in &spreads {
            let Some((arms, pooled)) = settled(&mut sites, *spread) else {
                return Err(NoParts::NoSlope);
            };
            parts.push(Part {
                weight: libm::log(share * weight) + pooled.ln_z,
                scatter,
                spread: *spread,
                pooled,
                levels: arms.into_iter().map(|arm| arm.levels).collect(),
            });
        }
    }
    weigh(&mut parts);
    Ok(parts)
}

/// From logarithms to weights that add to one.
pub(super) fn weigh(parts: &mut Vec<Part>) {
    let top = parts
        .iter()
        .map(|p| p.weight)
        .fold(f64::NEG_INFINITY, f64::max);
    for part in parts.iter_mut() {
        part.weight = libm::exp(part.weight - top);
    }
    parts.retain(|part| part.weight > LIGHT);
    let sum: f64 = parts.iter().map(|part| part.weight).sum();
    for part in parts.iter_mut() {
        part.weight /= sum;
    }
}
