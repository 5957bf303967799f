//! Which subject moves unlike its mates, and since when.
//!
//! # Method
//! A ratio of chances: of all readings of the kind if this subject has a drift of its own since some service,
//! over that if it is one of the kind. Were it one of the kind, the ratio would be 1 on average after every
//! service, so that it ever passes `1 / a` has a chance of at most `a` (J. Ville, 1939), however often one
//! looks. With `m` subjects in the kind the bound is `m / a`.
//!
//! The drift of its own is normal about the kind's, 3 or 10 typical rates wide; the service since which it
//! is so has the weight `1 / ((k + 1) (k + 2))`: our choice. Readings between two leaves count by their
//! moments.

use super::course::Course;
use super::pooled::{Arm, Sites};
use super::posterior::{Axis, Sizes, reach, scatters, sites_of, spreads};
use super::site::Site;
use crate::statistics::ln_sum;
use alloc::vec::Vec;
use core::f64::consts::TAU;
use serde::Serialize;

/// The share of kinds without an odd one in which one is called so at some time.
pub(super) const FALSE_ALARMS: f64 = 0.05;
/// Widths of a drift of its own, in typical rates of the mates.
const WIDTHS: [f64; 2] = [3.0, 10.0];
/// Mates that a comparison needs.
const FEWEST_MATES: usize = 2;
const SCATTERS: usize = 20;
const SPREADS: usize = 8;

/// How a subject compares with the others of its kind.
///
/// ```
/// use lashwork::history::Standing;
/// let standing = Standing { subject: 3, evidence: 250.0, needed: 80.0, is_odd: true, since: Some(4) };
/// assert!(standing.evidence >= standing.needed);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Standing {
    /// Which subject of the record, from 0.
    pub subject: usize,
    /// How many times more probable its readings are if it moves unlike its mates.
    pub evidence: f64,
    /// How many times it takes to say so.
    pub needed: f64,
    /// Whether that is reached.
    pub is_odd: bool,
    /// If so, after which service of the record, from 0, its own drift most probably began.
    pub since: Option<usize>,
}

impl Standing {
    /// The most kinds without an odd subject in which one is called so, however often one looks.
    ///
    /// ```
    /// use lashwork::history::Standing;
    /// assert!(Standing::FALSE_ALARMS <= 0.05);
    /// ```
    pub const FALSE_ALARMS: f64 = FALSE_ALARMS;
}

/// The integral over everything of a kind as a quadratic in the kind's slope.
#[derive(Clone, Copy, Debug, Default)]
struct Sum {
    precision: f64,
    product: f64,
    ln: f64,
}

impl Sum {
    /// With another subject of which is known: square, product and rest of the exponent, and a constant.
    fn with(self, (xx, xy, yy, ln): (f64, f64, f64, f64), spread: f64) -> Self {
        let square = spread * spread;
        let w = 1.0 / (1.0 + square * xx);
        Self {
            precision: self.precision + w * xx,
            product: self.product + w * xy,
            ln: self.ln + ln + 0.5 * libm::log(w) + 0.5 * (square * w * xy * xy - yy),
        }
    }

    fn ln_z(self) -> f64 {
        0.5 * (libm::log(TAU / self.precision) + self.product * self.product / self.precision)
            + self.ln
    }
}

fn plain(arm: &Arm) -> (f64, f64, f64, f64) {
    let yy: f64 = arm.levels.iter().map(|level| level.yy).sum();
    (arm.precision, arm.product, yy, arm.ln_c)
}

/// The same with a drift of its own after a time, `width` wide.
fn bent(stretches: &[Vec<Site>], arm: &Arm, from: f64, width: f64) -> (f64, f64, f64, f64) {
    let (xx, xy, yy, ln) = plain(arm);
    let (mut xh, mut hh, mut hy) = (0.0, 0.0, 0.0);
    for (sites, level) in stretches.iter().zip(&arm.levels) {
        let after = |site: &Site| (site.x - from).max(0.0);
        let mean: f64 = sites.iter().map(|s| s.precision * after(s)).sum::<f64>() / level.weight;
        for site in sites {
            let h = after(site) - mean;
            xh += site.precision * h * (site.x - level.x);
            hy += site.precision * h * (site.y - level.y);
            hh += site.precision * h * h;
        }
    }
    let q = width * width / (1.0 + width * width * hh);
    (
        xx - q * xh * xh,
        xy - q * xh * hy,
        yy - q * hy * hy,
        ln - 0.5 * libm::log1p(width * width * hh),
    )
}

/// How each subject of a kind stands; nothing where there are too few mates to say.
pub(super) fn standings(courses: &[Course], axis: &Axis, sizes: &Sizes) -> Vec<Option<Standing>> {
    let mut sites = sites_of(courses, axis);
    let has_slope: Vec<bool> = slopes(&sites, sizes);
    let tested = has_slope.iter().filter(|has| **has).count();
    (0..courses.len())
        .map(|own| {
            let is_able = has_slope.get(own).copied().unwrap_or(false) && tested > FEWEST_MATES;
            let spare = sizes.spare >= FEWEST_MATES;
            (is_able && spare)
                .then(|| standing(courses, &mut sites, (axis, sizes), own, tested))
                .flatten()
        })
        .collect()
}

fn slopes(sites: &Sites, sizes: &Sizes) -> Vec<bool> {
    let mut plain = sites.clone();
    for site in plain.iter_mut().flatten().flatten() {
        site.as_moments(0.0, sizes.unit());
    }
    let has = |stretches: &Vec<Vec<Site>>| Arm::of(stretches).precision > 0.0;
    plain.iter().map(has).collect()
}

fn standing(
    courses: &[Course],
    sites: &mut Sites,
    (axis, sizes): (&Axis, &Sizes),
    own: usize,
    tested: usize,
) -> Option<Standing> {
    let mates: Vec<Course> = courses
        .iter()
        .enumerate()
        .filter(|(at, _)| *at != own)
        .map(|(_, course)| course.clone())
        .collect();
    let rate = Sizes::of(&mates, axis).rate.max(sizes.least);
    let spreads = spreads(courses.len(), rate, SPREADS);
    let all = reach(sites, sizes, &spreads);
    let others = reach(&mut sites_of(&mates, axis), sizes, &spreads);
    let between = (all.0.min(others.0), all.1.max(others.1));
    let starts = starts(courses.get(own)?, axis);

    let mut alike = Vec::new();
    let mut unlike: Vec<Vec<f64>> = starts.iter().map(|_| Vec::new()).collect();
    for (scatter, weight) in scatters(between, sizes, SCATTERS) {
        for site in sites.iter_mut().flatten().flatten() {
            site.as_moments(scatter, sizes.least);
        }
        let arms: Vec<Arm> = sites.iter().map(|stretches| Arm::of(stretches)).collect();
        let own_arm = arms.get(own)?;
        let own_sites = sites.get(own)?;
        let ways: Vec<Vec<_>> = starts
            .iter()
            .map(|(_, from)| {
                let bent = |width: &f64| bent(own_sites, own_arm, *from, width * rate);
                WIDTHS.iter().map(bent).collect()
            })
            .collect();
        for (spread, share) in &spreads {
            let mates = arms.iter().enumerate().filter(|(at, _)| *at != own);
            let mates = mates.fold(Sum::default(), |sum, (_, arm)| {
                sum.with(plain(arm), *spread)
            });
            let ln = libm::log(weight * share);
            alike.push(ln + mates.with(plain(own_arm), *spread).ln_z());
            for (ways, terms) in ways.iter().zip(&mut unlike) {
                let each_of = ln - libm::log(WIDTHS.len() as f64);
                let each = ways
                    .iter()
                    .map(|way| each_of + mates.with(*way, *spread).ln_z());
                terms.extend(each);
            }
        }
    }
    let alike = ln_sum(alike.iter().copied());
    let (mut evidence, mut rest, mut since) = (0.0, 1.0, (0.0, None));
    for ((service, _), terms) in starts.iter().zip(&unlike) {
        let k = *service as f64;
        let weight = 1.0 / ((k + 1.0) * (k + 2.0));
        let part = weight * libm::exp((ln_sum(terms.iter().copied()) - alike).min(600.0));
        evidence += part;
        rest -= weight;
        if part > since.0 {
            since = (part, Some(*service));
        }
    }
    // Later beginnings say nothing yet.
    evidence += rest;
    let needed = tested as f64 / FALSE_ALARMS;
    let is_odd = evidence >= needed;
    Some(Standing {
        subject: courses.get(own)?.subject,
        evidence,
        needed,
        is_odd,
        since: since.1.filter(|_| is_odd),
    })
}

/// Services after which a drift of its own may have begun, with their places in time.
fn starts(course: &Course, axis: &Axis) -> Vec<(usize, f64)> {
    let readings = course.stretches.iter().flat_map(|s| &s.readings);
    let mut found: Vec<(usize, f64)> = Vec::new();
    for reading in readings {
        if found
            .last()
            .is_none_or(|(service, _)| *service != reading.service)
        {
            found.push((reading.service, axis.place(reading.at)));
        }
    }
    // After the last reading there is none to tell by.
    found.pop();
    found
}
