//! What may make the sparks uneven, weighed.
//!
//! # Models
//! Each reading errs by its own doubt, and all share a mean nobody knows. A sound distributor spreads its
//! lobes by a quarter of the tolerance. On top of that, sizes normal about 0 with the tolerance: a wave of
//! one turn (run-out); one lobe that is late only, because wear lowers it; every second spark; both together;
//! every lobe by itself. A slip is one reading that is off by twice the tolerance either way.
//!
//! # Groups
//! An explanation stands with the most probable one it cannot be told from: one that makes the same pattern of
//! readings exactly, and needs all its parts for it. With four lobes a run-out and a play of every second
//! spark together make what one worn lobe makes; a run-out alone needs no play, and is not told to have one.
//!
//! # Source
//! Bayes' rule. Sizes and shares are this library's choice.

use super::fit::wave;
use super::gaussian::Gaussian;
use super::readings::Lobes;
use super::vectors::{Basis, norm};
use crate::engine::CylinderIndex;
use crate::statistics::ln_normal_tail;
use alloc::vec::Vec;
use core::f64::consts::LN_2;
use serde::Serialize;

/// From this probability on a group counts as settled. This library's choice.
const SETTLED: f64 = 0.95;
/// A sound distributor's spread of its lobes, in tolerances.
const SOUND: f64 = 0.25;
/// The size of a slip, in tolerances.
const SLIP: f64 = 2.0;
/// The spread of the mean, in crank degrees: nothing is known of it.
const ANY_MEAN: f64 = 180.0;
/// What of a pattern another cannot make may be rounding, as a share.
const SAME: f64 = 1e-6;
/// An explanation below this says nothing about what to look at next.
const WORTH_A_LOOK: f64 = 0.01;

/// What may be the matter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum UnevenCause {
    /// Nothing: they are as even as those of a sound distributor.
    Even,
    /// The shaft is bent, the cam sits off its middle, or a bushing lets it run round.
    RunOut,
    /// One lobe is worn.
    LobeWorn,
    /// One reading is a slip.
    Misread,
    /// Every second spark is late: two sets of contacts set apart, or play in a half-speed drive.
    EveryOther,
    /// Run-out and every second spark together.
    RunOutAndEveryOther,
    /// Each lobe by itself: a worn cam, a loose plate, a worn thrust face.
    EveryLobe,
}

impl UnevenCause {
    /// All, with the share of belief each has before anything is read, in per cent; the lobes share theirs
    /// evenly. This library's choice.
    pub const PRIOR_PERCENT: [(Self, f64); 7] = [
        (Self::Even, 80.0),
        (Self::RunOut, 6.0),
        (Self::LobeWorn, 4.0),
        (Self::Misread, 5.0),
        (Self::EveryOther, 2.0),
        (Self::RunOutAndEveryOther, 1.0),
        (Self::EveryLobe, 2.0),
    ];

    /// The share of belief in per cent.
    ///
    /// ```
    /// use lashwork::ignition::evenness::UnevenCause;
    /// let all: f64 = UnevenCause::PRIOR_PERCENT.iter().map(|(cause, _)| cause.prior_percent()).sum();
    /// assert_eq!(all, 100.0);
    /// ```
    #[must_use]
    pub fn prior_percent(self) -> f64 {
        let found = Self::PRIOR_PERCENT.iter().find(|(cause, _)| *cause == self);
        found.map_or(0.0, |(_, percent)| *percent)
    }
}

/// One way in which things may be.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct UnevenExplanation {
    /// What is the matter.
    pub cause: UnevenCause,
    /// Whose lobe, or whose reading.
    pub cylinder: Option<CylinderIndex>,
    /// How likely it was taken to be before anything was read.
    pub prior: f64,
    /// How likely it is by the readings.
    pub probability: f64,
}

/// Explanations that these readings cannot tell apart.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct UnevenGroup {
    /// Those in it, the most likely first.
    pub explanations: Vec<UnevenExplanation>,
    /// How likely one of them is true.
    pub probability: f64,
}

/// What came out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum UnevenVerdict {
    /// One explanation holds with a probability of 0.95 or more, and none makes the same pattern.
    Settled,
    /// One group does, of explanations that cannot be told apart by these readings.
    CannotBeToldApart,
    /// Several groups are still likely.
    Open,
}

/// What to look at to tell explanations apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum EvennessLook {
    /// Read that cylinder once more.
    ReadAgain(CylinderIndex),
    /// Push and pull the shaft sideways with a dial gauge at the cam, and turn it once.
    SidePlay,
    /// Compare the gap on top of that cylinder's lobe with the gaps on the others.
    GapOnLobe(CylinderIndex),
    /// Compare the sets of contacts, and rock the drive for play.
    ContactsAndDrive,
    /// Compare the gaps on all lobes.
    GapOnEveryLobe,
}

impl UnevenExplanation {
    /// What would show it.
    fn look(&self) -> Option<EvennessLook> {
        Some(match (self.cause, self.cylinder) {
            (UnevenCause::Misread, Some(cylinder)) => EvennessLook::ReadAgain(cylinder),
            (UnevenCause::LobeWorn, Some(cylinder)) => EvennessLook::GapOnLobe(cylinder),
            (UnevenCause::RunOut | UnevenCause::RunOutAndEveryOther, _) => EvennessLook::SidePlay,
            (UnevenCause::EveryOther, _) => EvennessLook::ContactsAndDrive,
            (UnevenCause::EveryLobe, _) => EvennessLook::GapOnEveryLobe,
            _ => return None,
        })
    }
}

/// An explanation with the columns it makes readings of, part by part.
struct Model {
    explanation: UnevenExplanation,
    parts: Vec<Vec<Vec<f64>>>,
    ln_likelihood: f64,
}

/// The groups, most likely first; what came of them; what tells them apart, the cheapest look first.
pub(super) fn weigh(
    lobes: &Lobes,
    tolerance: f64,
) -> (Vec<UnevenGroup>, UnevenVerdict, Vec<EvennessLook>) {
    let models = models(lobes, tolerance);
    let top = models
        .iter()
        .fold(f64::NEG_INFINITY, |top, m| top.max(m.ln_likelihood));
    let weight = |m: &Model| m.explanation.prior * libm::exp(m.ln_likelihood - top);
    let all: f64 = models.iter().map(weight).sum();
    let mut models: Vec<Model> = models
        .into_iter()
        .map(|mut m| {
            m.explanation.probability = weight(&m) / all;
            m
        })
        .collect();
    models.sort_by(|a, b| {
        let (a, b) = (a.explanation.probability, b.explanation.probability);
        b.total_cmp(&a)
    });
    let groups = grouped(lobes, &models);
    let best = groups.first();
    let verdict = match best {
        Some(group) if group.probability < SETTLED => UnevenVerdict::Open,
        Some(group) if group.explanations.len() > 1 => UnevenVerdict::CannotBeToldApart,
        _ => UnevenVerdict::Settled,
    };
    let mut looks: Vec<EvennessLook> = Vec::new();
    if verdict != UnevenVerdict::Settled {
        let worth = |e: &&UnevenExplanation| e.probability >= WORTH_A_LOOK;
        let each = groups.iter().flat_map(|g| &g.explanations).filter(worth);
        for look in each.filter_map(UnevenExplanation::look) {
            if !looks.contains(&look) {
                looks.push(look);
            }
        }
        looks.sort();
    }
    (groups, verdict, looks)
}

fn models(lobes: &Lobes, tolerance: f64) -> Vec<Model> {
    let count = lobes.late.len();
    // About their mean, so that a zero counted from elsewhere changes nothing.
    let late = Basis::of([alloc::vec![1.0; count].as_slice()]).rest(&lobes.late);
    let one = |lobe: usize| -> Vec<f64> {
        (0..count)
            .map(|at| f64::from(u8::from(at == lobe)))
            .collect()
    };
    let variance = |size: f64| (size * tolerance) * (size * tolerance);
    let mut sound = Gaussian::of_noise(count, lobes.u * lobes.u)
        .with(&alloc::vec![1.0; count], ANY_MEAN * ANY_MEAN);
    for lobe in 0..count {
        sound = sound.with(&lobes.shown(&one(lobe)), variance(SOUND));
    }
    let waves: Vec<Vec<f64>> = wave(lobes).iter().map(|w| lobes.shown(w)).collect();
    let turns: Vec<f64> = (0..count)
        .map(|at| if at % 2 == 0 { 1.0 } else { -1.0 })
        .collect();
    let alternates = count.is_multiple_of(2) && !lobes.is_dwell;
    let every_other = if alternates { Some(turns) } else { None };
    let mut found = Vec::new();
    let mut model = |cause, cylinder, parts: Vec<Vec<Vec<f64>>>, size: f64, share: f64| {
        let mut whole = sound.clone();
        for column in parts.iter().flatten() {
            whole = whole.with(column, variance(size));
        }
        let mut ln_likelihood = whole.ln_density(&late);
        // A worn lobe is late: half of the sizes do not come up, and the other half twice as often.
        if let (UnevenCause::LobeWorn, Some(column)) = (cause, parts.iter().flatten().next()) {
            let off = sound.size_over_doubt(column, variance(size), &late);
            ln_likelihood += LN_2 + ln_normal_tail(-off);
        }
        found.push(Model {
            explanation: UnevenExplanation {
                cause,
                cylinder,
                prior: cause.prior_percent() / 100.0 * share,
                probability: 0.0,
            },
            parts,
            ln_likelihood,
        });
    };
    let alone = |column: Vec<f64>| alloc::vec![alloc::vec![column]];
    model(UnevenCause::Even, None, Vec::new(), 1.0, 1.0);
    model(
        UnevenCause::RunOut,
        None,
        alloc::vec![waves.clone()],
        1.0,
        1.0,
    );
    for (lobe, cylinder) in lobes.cylinders.iter().enumerate() {
        let share = 1.0 / count as f64;
        let worn = alone(lobes.shown(&one(lobe)));
        model(UnevenCause::LobeWorn, Some(*cylinder), worn, 1.0, share);
        model(
            UnevenCause::Misread,
            Some(*cylinder),
            alone(one(lobe)),
            SLIP,
            share,
        );
    }
    if let Some(turns) = every_other {
        model(
            UnevenCause::EveryOther,
            None,
            alone(turns.clone()),
            1.0,
            1.0,
        );
        let both = alloc::vec![waves, alloc::vec![turns]];
        model(UnevenCause::RunOutAndEveryOther, None, both, 1.0, 1.0);
    }
    let each = (0..count).flat_map(|lobe| alone(lobes.shown(&one(lobe))));
    model(UnevenCause::EveryLobe, None, each.collect(), 1.0, 1.0);
    let all: f64 = found.iter().map(|m| m.explanation.prior).sum();
    for m in &mut found {
        m.explanation.prior /= all;
    }
    found
}

/// The most likely one first, and with it all that can make its pattern.
fn grouped(lobes: &Lobes, models: &[Model]) -> Vec<UnevenGroup> {
    let mean = alloc::vec![1.0; lobes.late.len()];
    let span = |model: &Model, without: Option<usize>| {
        let parts = model.parts.iter().enumerate();
        let parts = parts.filter(|(at, _)| Some(*at) != without);
        let columns = parts.flat_map(|(_, part)| part).map(Vec::as_slice);
        Basis::of(core::iter::once(mean.as_slice()).chain(columns))
    };
    let mut left: Vec<&Model> = models.iter().collect();
    let mut groups = Vec::new();
    while !left.is_empty() {
        let leader = left.remove(0);
        // Its pattern, without the mean: what its columns fit of the readings.
        let about_mean = Basis::of([mean.as_slice()]).rest(&lobes.late);
        let unfitted = span(leader, None).rest(&about_mean);
        let pattern: Vec<f64> = about_mean
            .iter()
            .zip(&unfitted)
            .map(|(all, rest)| all - rest)
            .collect();
        let size = norm(&pattern);
        let makes = |other: &Model, without: Option<usize>| {
            norm(&span(other, without).rest(&pattern)) <= SAME * size
        };
        let makes_it = |other: &&Model| {
            let parts = 0..other.parts.len();
            !leader.parts.is_empty()
                && !other.parts.is_empty()
                && makes(other, None)
                && parts.into_iter().all(|part| !makes(other, Some(part)))
        };
        let (same, rest): (Vec<&Model>, Vec<&Model>) = left.into_iter().partition(makes_it);
        left = rest;
        let explanations: Vec<UnevenExplanation> = core::iter::once(leader)
            .chain(same)
            .map(|m| m.explanation)
            .collect();
        groups.push(UnevenGroup {
            probability: explanations.iter().map(|e| e.probability).sum(),
            explanations,
        });
    }
    groups.sort_by(|a, b| b.probability.total_cmp(&a.probability));
    groups
}
