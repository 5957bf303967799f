//! The numbers of the model and how a lash spreads under it.

use super::evidence::Source;
use super::likelihood::{Gap, ln_add};
use crate::quantity::{Lash, TemperatureDifference};
use crate::tolerance::Limits;
use crate::valve::ValveKind;
use crate::valve::ValveLimits;
use serde::Serialize;

/// What a lash strays from its set value between two services, besides the width of the band, in
/// millimetres.
const STRAY_MM: f64 = 0.015;
/// What all valves of a kind stray together, in millimetres: 0.015 mm of wear of like parts over like
/// hours and 0.02 mm of a heavy or a light hand.
const DRIFT_MM: f64 = 0.025;
/// How many times as wide as the band says the ordinary valves of an engine spread, and how probable
/// that is before its readings.
pub(super) const SPREADS: [(f64, f64); 4] = [(1.0, 0.55), (1.5, 0.25), (2.25, 0.14), (3.4, 0.06)];
/// Ordinary valves of a neglected engine spread by no more than this share of their set value, or as the
/// band says.
pub(crate) const WIDEST: f64 = 0.3;
/// The share of odd valves on an engine, and how probable that is.
pub(super) const ODD_SHARES: [(f64, f64); 2] = [(0.0, 0.97), (0.1, 0.03)];
/// The share of odd valves where more than one thing is wrong.
pub(super) const SEVERAL_SHARE: f64 = 0.5;
/// Share of valves that have worn more than the others.
pub(super) const WORN_SHARE: f64 = 0.03;
/// The logarithm of that share, and of the rest.
const LN_WORN: f64 = -3.506_557_897_319_982;
const LN_UNWORN: f64 = -0.030_459_207_484_708_574;
/// How many times wider those stray.
const WORN_TIMES: f64 = 2.0;
/// An odd valve strays at least so many times its usual spread.
const ODD_TIMES: f64 = 8.0;
/// What a leaf may still feel in a gap that is held shut, in millimetres.
const SHUT_MM: f64 = 0.02;
/// Share of valves read a turn out whose reading was good all the same.
const SPARED_SHARE: f64 = 0.05;
/// How much warmer the metal would be than assumed, where it is known how the lash follows; twice that with
/// the spread of the shift, a whole warm-up.
pub(crate) const UNNOTICED: TemperatureDifference = TemperatureDifference::of_kelvin::<30>();
/// Share of the shift by known parts that it spreads.
pub(super) const KNOWN_WARMTH_SPREAD: f64 = 0.5;
/// How many times as probable two faults of the whole engine are together as by chance: the hand that made one
/// makes another.
pub(super) const TOGETHER: f64 = 3.0;
/// A fault is reported when 'no systematic fault' is left with at most this.
pub(super) const NOTHING_AT_MOST: f64 = 0.1;
/// What is more probable than not.
pub(crate) const PROBABLY: f64 = 0.5;
/// A cause is tied with the most probable one if it is at most so many times less probable.
pub(super) const TIED_TIMES: f64 = 10.0;
/// Fewest readings from which anything is said.
pub(super) const FEWEST: usize = 4;
/// Most readings that are weighed.
pub(super) const MOST: usize = 256;
/// Most sources that are weighed.
pub(super) const MOST_SOURCES: usize = 8;

/// With how little 'no systematic fault' is left when causes are reported, and within what factor they
/// are tied.
pub(crate) const fn limits_of_report() -> (f64, f64) {
    (NOTHING_AT_MOST, TIED_TIMES)
}

/// How the true lash of one kind of valve lies on an ordinary engine.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct KindModel {
    /// The set value.
    pub set_to_mm: f64,
    /// Standard deviation of most valves about it.
    pub spread_mm: f64,
    /// Standard deviation of the worn ones.
    pub worn_spread_mm: f64,
    /// Standard deviation of an odd valve.
    pub odd_spread_mm: f64,
}

impl KindModel {
    pub(super) fn of(limits: &ValveLimits) -> Self {
        let set_to = limits.set_to().mm();
        let half = half_mm(set_to, limits.judging());
        Self::about(set_to, libm::hypot(half / libm::sqrt(3.0), STRAY_MM))
    }

    fn about(set_to: f64, spread: f64) -> Self {
        Self {
            set_to_mm: set_to,
            spread_mm: spread,
            worn_spread_mm: WORN_TIMES * spread,
            odd_spread_mm: set_to.max(ODD_TIMES * spread),
        }
    }

    /// A valve like the others, for one reading and every drift of them all.
    pub(super) fn ln_ordinary_of(&self, gap: &Gap) -> impl Fn(f64) -> f64 + use<> {
        let set_to = self.set_to_mm;
        let usual = gap.ln_mass_of(self.spread_mm);
        let worn = gap.ln_mass_of(self.worn_spread_mm);
        move |drift| {
            let mean = set_to + drift;
            ln_add(LN_UNWORN + usual(mean), LN_WORN + worn(mean))
        }
    }

    /// The same kind with ordinary valves so many times as wide, up to what an engine spreads at all.
    fn spread_by(self, times: f64) -> Self {
        let most = (WIDEST * self.set_to_mm / self.spread_mm).max(1.0);
        let times = times.min(most);
        Self {
            spread_mm: times * self.spread_mm,
            worn_spread_mm: times * self.worn_spread_mm,
            ..self
        }
    }

    /// The same kind set to so many times its value.
    pub(super) fn set_to_times(self, times: f64) -> Self {
        Self {
            set_to_mm: times * self.set_to_mm,
            ..self
        }
    }

    /// An odd valve.
    pub(super) fn ln_odd(&self, gap: &Gap) -> f64 {
        gap.ln_mass(self.set_to_mm, self.odd_spread_mm)
    }

    /// A valve off its base circle, most likely without any gap, for one reading and every likelihood that
    /// it has if it was spared.
    pub(super) fn ln_lifted_of(gap: &Gap) -> impl Fn(f64) -> f64 + use<> {
        let shut = libm::log(1.0 - SPARED_SHARE) + gap.ln_mass(0.0, SHUT_MM);
        let ln_spared = libm::log(SPARED_SHARE);
        move |ordinary| ln_add(shut, ln_spared + ordinary)
    }
}

/// The model of an engine that follows one source.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Model {
    /// Intake valves.
    pub intake: KindModel,
    /// Exhaust valves.
    pub exhaust: KindModel,
    /// Share of worn valves.
    pub worn_share: f64,
    /// Standard deviation of what moves all valves of a kind together: drift and the doubt of the
    /// thermal correction.
    pub drift_mm: f64,
}

impl Model {
    pub(super) fn of(source: &Source) -> Self {
        Self {
            intake: KindModel::of(&source.intake),
            exhaust: KindModel::of(&source.exhaust),
            worn_share: WORN_SHARE,
            drift_mm: libm::hypot(DRIFT_MM, source.warmth_uncertainty.mm()),
        }
    }

    /// Another source beside the assumed one: valves set to its values, lying about them as widely
    /// as about the assumed ones. Its band says what is allowed, not how they were set: a narrower
    /// one would fit any well-set engine better.
    pub(super) fn of_other(source: &Source, believed: &Self) -> Self {
        let kind = |limits: &ValveLimits, kind: &KindModel| {
            KindModel::about(limits.set_to().mm(), kind.spread_mm)
        };
        Self {
            intake: kind(&source.intake, &believed.intake),
            exhaust: kind(&source.exhaust, &believed.exhaust),
            ..Self::of(source)
        }
    }

    /// The same engine with ordinary valves so many times as wide.
    pub(super) fn spread_by(self, times: f64) -> Self {
        Self {
            intake: self.intake.spread_by(times),
            exhaust: self.exhaust.spread_by(times),
            ..self
        }
    }

    pub(super) const fn kind(&self, kind: ValveKind) -> &KindModel {
        match kind {
            ValveKind::Intake => &self.intake,
            ValveKind::Exhaust => &self.exhaust,
        }
    }

    /// The lesser of the two usual spreads.
    pub(super) fn least_spread(&self) -> f64 {
        self.intake.spread_mm.min(self.exhaust.spread_mm)
    }

    /// Whether intake and exhaust are set so nearly alike that a swap would not show.
    pub(super) fn kinds_alike(&self) -> bool {
        let apart = (self.intake.set_to_mm - self.exhaust.set_to_mm).abs();
        apart < self.least_spread()
    }
}

/// Share of the set value that a valve strays between two services; common practice, no source.
const STRAY_SHARE: f64 = 0.1;

/// What one valve may stray from a fresh setting: the set band, the stray of a service and a share of
/// the set value together, in millimetres.
pub(super) fn set_spread_mm(limits: &ValveLimits) -> f64 {
    let set_to = limits.set_to().mm();
    let stray = libm::hypot(STRAY_MM, STRAY_SHARE * set_to);
    libm::hypot(half_mm(set_to, limits.set()) / libm::sqrt(3.0), stray)
}

/// Half a band: the farther of its ends from the set value.
fn half_mm(set_to: f64, band: &Limits<Lash>) -> f64 {
    let below = band.lower().map_or(0.0, |t| set_to - t.mm());
    let above = band.upper().map_or(0.0, |t| t.mm() - set_to);
    below.max(above)
}

/// How far unnoticed warmth moves the lash: mean and standard deviation, in millimetres.
pub(crate) fn warmth_shift(warming: super::Warming) -> (f64, f64) {
    match warming {
        super::Warming::Unknown(spread) => (0.0, spread.mm()),
        super::Warming::Known(by) => (by.mm(), KNOWN_WARMTH_SPREAD * by.mm().abs()),
    }
}
