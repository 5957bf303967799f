//! Rows of columns as plain numbers side by side, for those that are in range in everything.
#![expect(
    clippy::needless_bitwise_bool,
    reason = "a branch on what each row decides differently keeps rows apart"
)]
#![expect(
    clippy::inline_always,
    reason = "what is called elsewhere knows nothing of the registers this processor has"
)]

use super::columns::{MetalColumns, ReadingColumns, ReadingRow};
use crate::quantity::{
    Lash, LashChange, Temperature, TemperatureDifference, ZERO_CELSIUS_IN_KELVIN,
};
use crate::statistics::{Effect, LANES, Lane, Lanes, Worked};
use crate::tolerance::{BandJudge, JudgedRow, Measurand, Probabilities};

const NONE: Lane = [f64::NAN; LANES];

/// So many rows, and whether each is in range in all that was read.
pub(super) struct SideBySide {
    pub(super) lanes: Lanes,
    in_range: [bool; LANES],
}

impl SideBySide {
    pub(super) const fn new(warm: bool) -> Self {
        let effect = Effect {
            rise: NONE,
            rise_u: NONE,
            slope: NONE,
            slope_u: NONE,
        };
        let lanes = Lanes {
            a: NONE,
            b: NONE,
            u: NONE,
            low: NONE,
            high: NONE,
            effect: if warm { Some(effect) } else { None },
        };
        let in_range = [false; LANES];
        Self { lanes, in_range }
    }

    /// Takes the rows from one on.
    #[inline(always)]
    pub(super) fn take(&mut self, columns: &ReadingColumns<'_>, from: usize) {
        let Lanes {
            a,
            b,
            u,
            low,
            high,
            effect,
        } = &mut self.lanes;
        columns.low.fill(from, a);
        columns.high.fill(from, b);
        columns.uncertainty.fill(from, u);
        columns.lower.fill(from, low);
        columns.upper.fill(from, high);
        let read = a.iter().zip(&*b).zip(&*u);
        let limits = low.iter_mut().zip(high);
        for ((in_range, ((a, b), u)), (low, high)) in self.in_range.iter_mut().zip(read).zip(limits)
        {
            let (has_low, has_high) = (low.is_finite(), high.is_finite());
            *low = if has_low { *low } else { f64::NEG_INFINITY };
            *high = if has_high { *high } else { f64::INFINITY };
            *in_range = is_lash(*a)
                & is_lash(*b)
                & (*a <= *b)
                & is_uncertainty(*u)
                & (has_low | has_high)
                & (is_lash(*low) | !has_low)
                & (is_lash(*high) | !has_high)
                & (*low <= *high);
        }
        if let (Some(effect), Some(metal)) = (effect, &columns.metal) {
            take_metal(effect, metal, from, &mut self.in_range);
        }
    }

    /// The row if it is usual and in range: the bits it gets alone.
    #[inline(always)]
    pub(super) fn judged(
        &self,
        found: &Worked,
        at: usize,
        band: &mut BandJudge<'_, Lash>,
    ) -> Option<ReadingRow> {
        let usual = *self.in_range.get(at)? & *found.usual.get(at)?;
        let number = |lane: &Lane| lane.get(at).copied().unwrap_or(f64::NAN);
        if self.lanes.effect.is_some() {
            let change = number(&found.change);
            let is_change = (LashChange::MIN_MM..=LashChange::MAX_MM).contains(&change);
            if !(usual & is_change & is_uncertainty(number(&found.change_u))) {
                return None;
            }
        } else if !usual {
            return None;
        }
        let limit = |limit: f64| limit.is_finite().then_some(limit);
        band.turn_to(
            limit(number(&self.lanes.low)),
            limit(number(&self.lanes.high)),
        );
        let chances = (
            number(&found.below),
            number(&found.inside),
            number(&found.above),
        );
        let (low, high, u) = (number(&found.a), number(&found.b), number(&found.u));
        let judged = band.judge_known(Probabilities::known(chances), 0.5 * (high - low), u);
        Some(ReadingRow {
            low,
            high,
            u,
            at_reference: true,
            judged: JudgedRow::from(&judged),
        })
    }
}

#[inline(always)]
fn take_metal(
    effect: &mut Effect,
    metal: &MetalColumns<'_>,
    from: usize,
    in_range: &mut [bool; LANES],
) {
    let mut reference = NONE;
    metal.celsius.fill(from, &mut effect.rise);
    metal.uncertainty.fill(from, &mut effect.rise_u);
    metal.reference.fill(from, &mut reference);
    metal.mm_per_kelvin.fill(from, &mut effect.slope);
    metal
        .mm_per_kelvin_uncertainty
        .fill(from, &mut effect.slope_u);
    let doubts = effect.rise_u.iter().zip(&effect.slope_u);
    let temperatures = effect.rise.iter_mut().zip(&reference);
    for ((in_range, (rise_u, slope_u)), (rise, reference)) in
        in_range.iter_mut().zip(doubts).zip(temperatures)
    {
        *in_range &= is_temperature(*rise)
            & is_temperature(*reference)
            & (0.0..=TemperatureDifference::MAX_KELVIN).contains(rise_u)
            & (0.0..f64::INFINITY).contains(slope_u);
        // As temperatures are kept and subtracted.
        *rise = (*rise + ZERO_CELSIUS_IN_KELVIN) - (*reference + ZERO_CELSIUS_IN_KELVIN);
    }
}

#[inline(always)]
fn is_lash(mm: f64) -> bool {
    (Lash::MIN_MM..=Lash::MAX_MM).contains(&mm)
}

#[inline(always)]
fn is_uncertainty(mm: f64) -> bool {
    (0.0..=Lash::MAX_UNCERTAINTY).contains(&mm)
}

#[inline(always)]
fn is_temperature(celsius: f64) -> bool {
    (-ZERO_CELSIUS_IN_KELVIN..=Temperature::MAX_CELSIUS).contains(&celsius)
}
